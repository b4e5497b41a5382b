// The cases with "tier": "full": a million draws each.
#include <gtest/gtest.h>

#include "case_runner.h"

namespace fallaway::cases {
namespace {

TEST(Cases, HoldInTheFullTier) {
    const auto reports = run_cases(FALLAWAY_SOURCE_DIR "/tests/cases", "full");
    EXPECT_GE(reports.size(), 10u) << "case files are missing";
    for (const CaseReport& report : reports) {
        for (const std::string& fault : report.faults) ADD_FAILURE() << report.id << ": " << fault;
    }
}

}  // namespace
}  // namespace fallaway::cases
