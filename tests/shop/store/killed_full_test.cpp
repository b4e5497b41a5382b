#include "killed.h"

namespace fallaway::store {
namespace {

TEST_F(Killed, TwentyTimes) {
    EXPECT_GT(kill_times(20), 100u);
}

}  // namespace
}  // namespace fallaway::store
