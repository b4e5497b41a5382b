#include "shop/app/assess.h"

#include <fmt/format.h>

#include "bench/judgement/judge.h"
#include "bench/report/report.h"
#include "shop/files/assessment_json.h"
#include "shop/files/bench_codec.h"
#include "shop/files/catalogue_codec.h"
#include "shop/files/file_io.h"

namespace fallaway::app {

CommandOutput assess_command(const AssessOptions& options, std::string_view version) {
    const auto text = files::read_file(options.bench_path);
    if (!text) return bad_input(options.bench_path, {text.error()}, options.json);
    if (options.report_path && files::same_file(options.bench_path, *options.report_path)) {
        const Error error{"file", *options.report_path,
                          "is the bench file itself, expected another name for the report"};
        return bad_input(*options.report_path, {error}, options.json);
    }
    const auto bench = files::decode_bench(*text, files::built_in_catalogue());
    if (!bench) return bad_input(options.bench_path, bench.error(), options.json);
    const auto catalogue = evidence::catalogue_of(*bench, files::built_in_catalogue());

    const auto assessment = judgement::assess(*bench, catalogue);
    const report::Sheet sheet{*bench, catalogue, assessment, std::string(version)};
    if (options.report_path) {
        const auto written = files::write_file(*options.report_path, report::html_report(sheet));
        if (!written) return bad_input(*options.report_path, {written.error()}, options.json);
    }
    CommandOutput output;
    output.out = options.json ? files::assessment_json(*bench, assessment, version)
                              : report::text_report(sheet, options.colour);
    if (options.report_path && !options.json) output.out += fmt::format("\nReport: {}\n", *options.report_path);
    if (options.gate && assessment.verdict != judgement::Verdict::ready) output.exit_code = kGateNotPassed;
    return output;
}

}  // namespace fallaway::app
