// docs/procedure.md names everything that a bench file may name from the reference tables.
#include <fstream>
#include <iterator>
#include <string>

#include <gtest/gtest.h>

#include "shop/files/catalogue_codec.h"

namespace fallaway::files {
namespace {

TEST(ProcedureManual, NamesEveryCheckpointClaimAndTool) {
    std::ifstream file(FALLAWAY_SOURCE_DIR "/docs/procedure.md");
    const std::string manual{std::istreambuf_iterator<char>(file), {}};
    ASSERT_FALSE(manual.empty());
    const auto named = [&](const std::string& id) { return manual.find("| `" + id + "` |") != std::string::npos; };
    const auto& catalogue = built_in_catalogue();
    for (const auto& checkpoint : catalogue.procedure.checkpoints)
        EXPECT_TRUE(named(checkpoint.id)) << checkpoint.id;
    for (const auto& claim : catalogue.claims) EXPECT_TRUE(named(claim.id)) << claim.id;
    for (const auto& tool : catalogue.tools) EXPECT_TRUE(named(tool.id)) << tool.id;
}

}  // namespace
}  // namespace fallaway::files
