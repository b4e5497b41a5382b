// Tests that change something of their whole process (its disks, its user) do it in a child.
#pragma once

#include <fcntl.h>
#include <sched.h>
#include <sys/mount.h>
#include <sys/wait.h>
#include <unistd.h>

#include <functional>
#include <stdexcept>
#include <string>

#include <gtest/gtest.h>

namespace fallaway::store {

// Runs `work` in a child. What it answers is a fault, "" for none; an exception and a crash are faults too.
inline std::string in_child(const std::function<std::string()>& work) {
    int pipe[2];
    if (::pipe2(pipe, O_CLOEXEC) != 0) return "no pipe";
    const pid_t child = ::fork();
    if (child == 0) {
        std::string fault;
        try {
            fault = work();
        } catch (const std::exception& error) {
            fault = error.what();
        }
        const bool told = ::write(pipe[1], fault.data(), fault.size()) == ssize_t(fault.size());
        ::_exit(told ? 0 : 1);
    }
    ::close(pipe[1]);
    std::string fault;
    char chunk[4096];
    for (ssize_t got; (got = ::read(pipe[0], chunk, sizeof chunk)) > 0;) fault.append(chunk, std::size_t(got));
    ::close(pipe[0]);
    int status = 0;
    ::waitpid(child, &status, 0);
    if (!WIFEXITED(status) || WEXITSTATUS(status) != 0) fault += " (the child crashed)";
    return fault;
}

// Disks of its own for this process; false where that is not permitted.
inline bool own_mounts() {
    return ::unshare(CLONE_NEWNS) == 0 && ::mount(nullptr, "/", nullptr, MS_REC | MS_PRIVATE, nullptr) == 0;
}

// Ends the work of a child with the place and the values when they differ.
template <class A, class B>
void must_be(const A& is, const B& expected, const char* what) {
    if (is == expected) return;
    throw std::runtime_error(std::string(what) + ": " + ::testing::PrintToString(is) + ", expected " +
                             ::testing::PrintToString(expected));
}
#define MUST_BE(is, expected) must_be(is, expected, #is)

}  // namespace fallaway::store
