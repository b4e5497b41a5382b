#include "shop/files/json_text.h"

#include <gtest/gtest.h>

namespace fallaway::files {
namespace {

TEST(JsonText, KeepsNumbersAsWrittenAndKeysInOrder) {
    const auto json = read_json(R"({"b": 1.60, "a": [true, null, -0.5e3, "x\ny"]})");
    ASSERT_TRUE(json.has_value());
    EXPECT_EQ(json->keys, (std::vector<std::string>{"b", "a"}));
    EXPECT_EQ(json->find("b")->text, "1.60");
    EXPECT_EQ(json->find("a")->items[2].text, "-0.5e3");
    EXPECT_EQ(json->find("a")->items[3].text, "x\ny");
    EXPECT_EQ(json->find("c"), nullptr);
}

TEST(JsonText, SkipsAByteOrderMark) {
    EXPECT_TRUE(read_json("\xEF\xBB\xBF{}").has_value());
}

TEST(JsonText, ThirtyTwoLevelsPassAndOneMoreDoesNot) {
    const auto nested = [](int levels) { return std::string(levels, '[') + std::string(levels, ']'); };
    EXPECT_TRUE(read_json(nested(32)).has_value());
    const auto deeper = read_json(nested(33));
    ASSERT_FALSE(deeper.has_value());
    EXPECT_EQ(deeper.error().code, "depth");
    EXPECT_FALSE(read_json(nested(2'000'000)).has_value());
}

TEST(JsonText, RefusesWhatIsTooLarge) {
    const auto json = read_json(std::string(kLargestJsonBytes + 1, ' '));
    ASSERT_FALSE(json.has_value());
    EXPECT_EQ(json.error().code, "size");
}

// Line and column count from 1; the column is that of the byte that could not be read.
TEST(JsonText, SyntaxFaultsHaveLineAndColumn) {
    const struct {
        const char* text;
        const char* message;
    } kCases[] = {
        {"", "line 1, column 1: the text ends here, expected a value"},
        {"{\n  \"a\": tru}", "line 2, column 11 near \"\"a\": tru}\": expected a value"},
        {"[1,\n2,\n]", "line 3, column 1 near \"2,<U+000A>]\": expected a value"},
        {"{} x", "line 1, column 4 near \"{} x\": expected nothing more"},
        {"[1 2]", "line 1, column 4 near \"2\": expected a comma or the end of the list"},
        {"{\"a\": 1 \"b\": 2}", "expected a comma or the end of the record"},
        {"{\"a\": 1, }", "expected a key in double quotes"},
        {"{a: 1}", "expected a key in double quotes"},
        {"{\"a\" 1}", "expected a colon after the key"},
        {"[\"a", "a text without its closing quote"},
        {"[\"\\q\"]", "no letter that may follow a backslash"},
        {"[\"\\u00g0\"]", "four digits"},
        {"[\"\\ud800\"]", "half a character"},
        {"[1.]", "a number that breaks off"},
        {"[\"a\nb\"]", "the line end, which is written \\n"},
        {"[\"; expected end of input\" 1", "expected a comma or the end of the list"},
        {"[1", "the text ends here, expected a comma or the end of the list"},
        {"[1] // note", "a comment"},
        {"[Infinity]", "expected a value"},
        {"[-1e400]", "too large"},
        {"[\"\xC3\x28\"]", "UTF-8"},
        {"[\"a\tb\"]", "control character"},
    };
    for (const auto& [text, message] : kCases) {
        const auto json = read_json(text);
        ASSERT_FALSE(json.has_value()) << text;
        EXPECT_EQ(json.error().code, "syntax");
        EXPECT_NE(json.error().message.find(message), std::string::npos)
            << text << " gave " << json.error().message;
    }
}

TEST(JsonText, ControlCharactersByEscapeAreRefusedButLineEndAndTab) {
    EXPECT_TRUE(read_json(R"(["a\n\tb"])").has_value());
    for (const char* text : {R"(["\u0000"])", R"(["\r"])", R"(["\u001b[2J"])", R"(["\u007f"])", R"(["\u0085"])",
                             R"({"\u0001": 1})"}) {
        EXPECT_FALSE(read_json(text).has_value()) << text;
    }
}

TEST(JsonText, DuplicateKeysAreToldByPath) {
    const auto json = read_json(R"([{}, {"x": {"a": 1, "b": 2, "a": 3}}])");
    ASSERT_FALSE(json.has_value());
    EXPECT_EQ(json.error().code, "duplicate");
    EXPECT_EQ(json.error().path, "/1/x/a");
}

TEST(JsonText, ManyKeysAreReadInReasonableTime) {
    std::string text = "{";
    for (int i = 0; i < 200'000; ++i) text += (i > 0 ? ",\"" : "\"") + std::to_string(i) + "\":0";
    EXPECT_TRUE(read_json(text + "}").has_value());
}

TEST(JsonText, WritesShortValuesOnOneLine) {
    const auto json =
        read_json(R"({"at":{"string":6,"fret":12},"long":[")" + std::string(90, 'x') + R"(","y"],"e":[],"r":{}})");
    ASSERT_TRUE(json.has_value());
    EXPECT_EQ(write_json(*json), "{\n  \"at\": {\"string\": 6, \"fret\": 12},\n  \"long\": [\n    \"" +
                                     std::string(90, 'x') +
                                     "\",\n    \"y\"\n  ],\n  \"e\": [],\n  \"r\": {}\n}\n");
}

TEST(JsonText, WritingAndReadingKeepsTheValue) {
    const auto json = read_json(R"({"a":"q\"\\\u00e9\u2028\/","b":[1,2.50,{"c":null}],"d":false})");
    ASSERT_TRUE(json.has_value());
    const auto again = read_json(write_json(*json));
    ASSERT_TRUE(again.has_value());
    EXPECT_EQ(*again, *json);
}

TEST(JsonText, PointersEscapeAsInRfc6901) {
    EXPECT_EQ(pointer_below("", "a/b"), "/a~1b");
    EXPECT_EQ(pointer_below("/x", "m~n"), "/x/m~0n");
}

}  // namespace
}  // namespace fallaway::files
