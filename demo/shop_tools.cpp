#include "stories.h"

namespace fallaway::demo {
namespace {

constexpr double kMm = 1e-3;
constexpr double kDegree = 0.017453292519943295;

}  // namespace

// Offsets stay within what each kind of tool is allowed to err (data/tools.json); scatter is that of a steady
// hand.
void add_shop_tools(Sheet& sheet) {
    const auto mm = [](double step, double bias, double scatter) {
        return ToolTruth{"mm", step * kMm, bias * kMm, 0, scatter * kMm};
    };
    sheet.add_tool("height gauge", "string-height gauge", mm(0.05, 0.02, 0.015),
                   {{"calibrated", "2026-09-14"}, {"certificate_u", "0.03 mm"}, {"certificate_k", 2.0}});
    sheet.add_tool("leaves", "feeler leaves", mm(0.05, 0.002, 0.004));
    sheet.add_tool("dial", "dial indicator", mm(0.01, 0.004, 0.005),
                   {{"calibrated", "2026-09-14"}, {"certificate_u", "0.008 mm"}, {"certificate_k", 2.0}});
    sheet.add_tool("caliper", "digital caliper", mm(0.01, 0.01, 0.015),
                   {{"calibrated", "2026-03-02"}, {"remark", "zeroed each morning"}});
    sheet.add_tool("rule", "steel rule 0.5 mm with loupe", mm(0.25, 0.1, 0.1),
                   {{"calibrated", "2026-09-14"}, {"certificate_u", "0.15 mm"}, {"certificate_k", 2.0}});
    sheet.add_tool("tape", "tape measure", mm(1, 0.5, 0.5));
    sheet.add_tool("radius set", "radius gauges", mm(12.7, 0, 0), {{"remark", "half-inch steps, 184 to 508 mm"}});
    sheet.add_tool("angle", "angle gauge", {"deg", 0.1 * kDegree, 0.1 * kDegree, 0, 0.05 * kDegree});
    sheet.add_tool("meter", "multimeter", {"kohm", 10, 5, 0.004, 4},
                   {{"calibrated", "2026-01-20"}, {"remark", "leads nulled before every row"}});
    sheet.add_tool("meter, ohms", "multimeter", {"ohm", 0.1, 0.05, 0.004, 0.05});
    sheet.add_tool("meter, high", "multimeter", {"kohm", 100, 50, 0.004, 60});
    sheet.add_tool("scale", "hanging scale", {"kg", 0.005, 0.003, 0, 0.002}, {{"calibrated", "2026-01-20"}});
    sheet.add_tool("spring", "spring scale", {"N", 0.1, 0.05, 0, 0.1});
    sheet.add_tool("tuner", "tuner", {"cents", 0.1, 0.3, 0, 0.5});
    sheet.add_tool("thermometer", "thermometer", {"degC", 0.1, 0.2, 0, 0.1});
    sheet.add_tool("recorder", "recorder", {"s", 0.1, 0, 0.03, 0.1});
    sheet.add_tool("level", "level meter", {"dB", 0.1, 0.2, 0, 0.5});
    sheet.add_tool("clock", "clock", {"h", 1800, 0, 0, 0});
}

double warm(double ohms_at_20, double celsius) {
    return ohms_at_20 * (1 + 0.00393 * (celsius - 20));
}

double parallel(double a, double b) {
    return a * b / (a + b);
}

}  // namespace fallaway::demo
