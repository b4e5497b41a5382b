#include "killed.h"

namespace fallaway::store {
namespace {

TEST_F(Killed, TwoHundredTimes) {
    EXPECT_GT(kill_times(200), 1000u);
}

}  // namespace
}  // namespace fallaway::store
