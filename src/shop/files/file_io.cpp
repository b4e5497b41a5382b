#include "shop/files/file_io.h"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <system_error>

#include <fmt/format.h>

namespace fallaway::files {
namespace {

namespace fs = std::filesystem;

std::string code_of(int system) {
    if (system == ENOSPC || system == EDQUOT || system == EFBIG) return "full";
    return system == EROFS ? "read only" : "file";
}

tl::unexpected<Error> file_error(const fs::path& path, std::string_view doing) {
    const int system = errno;
    return fail(code_of(system), path.string(), fmt::format("cannot {}: {}", doing, std::strerror(system)));
}

// A descriptor that closes itself.
class Descriptor {
public:
    explicit Descriptor(int fd) : fd_(fd) {}
    ~Descriptor() {
        if (fd_ >= 0) ::close(fd_);
    }
    Descriptor(const Descriptor&) = delete;
    Descriptor& operator=(const Descriptor&) = delete;
    int get() const { return fd_; }

private:
    int fd_;
};

bool write_all(int fd, std::string_view bytes) {
    while (!bytes.empty()) {
        const auto written = ::write(fd, bytes.data(), bytes.size());
        if (written < 0 && errno == EINTR) continue;
        if (written < 0) return false;
        bytes.remove_prefix(std::size_t(written));
    }
    return ::fsync(fd) == 0;
}

}  // namespace

Result<std::string> read_file(const fs::path& path, std::size_t most) {
    const Descriptor file(::open(path.c_str(), O_RDONLY | O_CLOEXEC));
    if (file.get() < 0) return file_error(path, "read");
    std::string bytes;
    char chunk[1 << 16];
    for (;;) {
        const auto got = ::read(file.get(), chunk, sizeof chunk);
        if (got < 0 && errno == EINTR) continue;
        if (got < 0) return file_error(path, "read");
        if (got == 0) return bytes;
        if (bytes.size() + std::size_t(got) > most) {
            return fail("file", path.string(), fmt::format("larger than {} bytes, the most that is read", most));
        }
        bytes.append(chunk, std::size_t(got));
    }
}

Result<void> write_file(const fs::path& path, std::string_view bytes) {
    // What is not a plain file (a pipe, /dev/stdout) is written straight.
    std::error_code ignored;
    if (fs::exists(path, ignored) && !fs::is_regular_file(path, ignored)) {
        const Descriptor target(::open(path.c_str(), O_WRONLY | O_CLOEXEC));
        if (target.get() < 0) return file_error(path, "write");
        if (!write_all(target.get(), bytes) && errno != EINVAL && errno != EROFS) return file_error(path, "write");
        return {};
    }
    const fs::path aside = path.string() + fmt::format(".{}.part", ::getpid());
    {
        const Descriptor file(::open(aside.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0644));
        if (file.get() < 0) return file_error(path, "write");
        if (!write_all(file.get(), bytes)) {
            const auto error = file_error(path, "write");
            ::unlink(aside.c_str());
            return error;
        }
    }
    if (::rename(aside.c_str(), path.c_str()) != 0) {
        const auto error = file_error(path, "write");
        ::unlink(aside.c_str());
        return error;
    }
    return {};
}

bool same_file(const fs::path& a, const fs::path& b) {
    std::error_code error;
    return fs::equivalent(a, b, error) && !error;
}

Result<void> make_folder(const fs::path& path) {
    std::error_code error;
    fs::create_directories(path, error);
    if (error) return fail(code_of(error.value()), path.string(), "cannot make the folder: " + error.message());
    if (!fs::is_directory(path, error)) return fail("file", path.string(), "is not a folder");
    return {};
}

}  // namespace fallaway::files
