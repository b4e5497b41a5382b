// A checkpoint that asks for a photo: rated where it has steps, else answered by the photo itself.
#include "fixture.h"

namespace fallaway::judgement {
namespace {

using namespace testing;

Catalogue with_photographed(std::vector<std::string> anchors) {
    Catalogue result = catalogue();
    Checkpoint label;
    label.id = "label";
    label.section = "head";
    label.kind = CheckpointKind::photographed;
    label.anchors = std::move(anchors);
    result.procedure.checkpoints.push_back(label);
    return result;
}

Bench with_photo(const std::string& checkpoint) {
    Bench bench;
    Photo photo;
    photo.path = "media/label.jpg";
    photo.checkpoint = checkpoint;
    photo.by = "Ruta Vell";
    bench.photos = {photo};
    return bench;
}

Answer answer_of(const Bench& bench, const Catalogue& known) {
    const auto assessment = assess(bench, known);
    return *std::ranges::find(assessment.answers, "label", &Answer::checkpoint);
}

TEST(Photos, AnswerACheckpointWithoutSteps) {
    const Answer answer = answer_of(with_photo("label"), with_photographed({}));
    EXPECT_EQ(answer.state, AnswerState::fine);
    ASSERT_EQ(answer.lines.size(), 1u);
    EXPECT_EQ(answer.lines[0].found.text, "photographed");
    EXPECT_EQ(answer.lines[0].by, "Ruta Vell");
    EXPECT_EQ(answer.lines[0].standing, Standing::not_judged);
}

TEST(Photos, ALaterStageCounts) {
    Bench bench = with_photo("label");
    bench.photos.push_back(bench.photos[0]);
    bench.photos[0].stage = Stage::after;
    bench.photos[0].what = "label after cleaning";
    const Answer answer = answer_of(bench, with_photographed({}));
    ASSERT_EQ(answer.lines.size(), 1u);
    EXPECT_EQ(answer.lines[0].found.text, "label after cleaning");
    EXPECT_EQ(answer.lines[0].stage, Stage::after);
}

TEST(Photos, OfSomethingElseAnswerNothing) {
    EXPECT_EQ(answer_of(with_photo("nut"), with_photographed({})).state, AnswerState::not_looked_at);
}

TEST(Photos, DoNotStandInForARating) {
    const Catalogue known = with_photographed({"gone", "altered", "worn", "clear"});
    EXPECT_EQ(answer_of(with_photo("label"), known).state, AnswerState::not_looked_at);
    Bench rated = with_photo("label");
    rated.ratings = {rating("label", 3)};
    EXPECT_EQ(answer_of(rated, known).state, AnswerState::fine);
}

}  // namespace
}  // namespace fallaway::judgement
