// Commands that write never write over somebody's work.
#include <unistd.h>

#include <filesystem>
#include <string>

#include <gtest/gtest.h>

#include "shop/app/assess.h"
#include "shop/app/demo.h"
#include "shop/files/file_io.h"

namespace fallaway::app {
namespace {

namespace fs = std::filesystem;

class FilesKept : public ::testing::Test {
protected:
    FilesKept() : folder_(fs::temp_directory_path() / ("fallaway_kept_" + std::to_string(::getpid()))) {
        fs::remove_all(folder_);
    }
    ~FilesKept() override { fs::remove_all(folder_); }

    std::string path(const char* name) const { return (folder_ / name).string(); }

    fs::path folder_;
};

TEST_F(FilesKept, ADemoFileSomebodyWorkedOnStays) {
    ASSERT_EQ(demo_command(folder_.string(), false).exit_code, kDone);
    EXPECT_EQ(demo_command(folder_.string(), false).exit_code, kDone);  // nothing differs
    ASSERT_TRUE(files::write_file(path("heron.json"), "mine"));
    const auto again = demo_command(folder_.string(), false);
    EXPECT_EQ(again.exit_code, kBadInput);
    EXPECT_NE(again.err.find("heron.json"), std::string::npos);
    EXPECT_EQ(*files::read_file(path("heron.json")), "mine");
}

TEST_F(FilesKept, TheReportNeverReplacesTheBenchFile) {
    ASSERT_EQ(demo_command(folder_.string(), false).exit_code, kDone);
    const std::string before = *files::read_file(path("quick.json"));
    fs::create_symlink("quick.json", folder_ / "link.html");
    for (const char* report : {"quick.json", "link.html"}) {
        AssessOptions options;
        options.bench_path = path("quick.json");
        options.report_path = path(report);
        EXPECT_EQ(assess_command(options, "test").exit_code, kBadInput) << report;
        EXPECT_EQ(*files::read_file(path("quick.json")), before) << report;
    }
}

TEST_F(FilesKept, AFailedReportLeavesNothing) {
    ASSERT_EQ(demo_command(folder_.string(), false).exit_code, kDone);
    AssessOptions options;
    options.bench_path = path("quick.json");
    options.report_path = path("no_such_folder/report.html");
    EXPECT_EQ(assess_command(options, "test").exit_code, kBadInput);
    EXPECT_FALSE(fs::exists(folder_ / "no_such_folder"));
}

TEST_F(FilesKept, TheGateOpensOnlyForReady) {
    ASSERT_EQ(demo_command(folder_.string(), false).exit_code, kDone);
    AssessOptions options;
    options.gate = true;
    options.bench_path = path("heron.json");
    EXPECT_EQ(assess_command(options, "test").exit_code, kGateNotPassed);
    options.bench_path = path("dray.json");
    EXPECT_EQ(assess_command(options, "test").exit_code, kDone);
}

}  // namespace
}  // namespace fallaway::app
