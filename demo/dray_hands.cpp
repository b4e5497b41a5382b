#include "stories.h"

namespace fallaway::demo {

void dray_hands(Sheet& sheet) {
    sheet.sit_down({"arrival", "Joon Aster", "2026-11-03", 9 * 60 + 15});
    sheet.rate("id-label", 3, "VD-088 on plate and pocket", {}, {"photos/dray/plate.jpg"});
    sheet.rate("id-originality", 3);
    sheet.rate("wood-neck-grain", 3);
    sheet.rate("wood-board-kind", 3);
    sheet.rate("wood-board", 3, "lacquer worn through behind frets 3 and 5, wood sound");
    sheet.rate("inlays", 3);
    sheet.rate("headstock-break", 3, "", {}, {"photos/dray/head_back.jpg"});
    sheet.rate("finish-sticky", 3);
    sheet.rate("sand-neck", 3);
    sheet.rate("neck-screws", 3);
    sheet.rate("nut-seat", 3);
    sheet.rate("nut-slots", 1, "slots 3 and 4 shallow, strings sit on top", {{"string", 4}},
               {"photos/dray/nut_before.jpg"});
    sheet.rate("tuners", 2, "second string a little stiff", {{"string", 2}});
    sheet.rate("rod-access", 3, "wheel at the heel, clean");
    sheet.rate("board-end", 3);
    sheet.rate("fret-seat", 3);
    sheet.rate("fret-crown", 2, "light marks under the first two strings");
    sheet.rate("bridge-fixings", 3);
    sheet.rate("saddle-burrs", 3);
    sheet.rate("string-age", 2, "a month old, clean; they stay");
    sheet.rate("pot-sweep", 1, "tone scratches half way", {{"control", "tone"}});
    sheet.rate("jack-hold", 3);
    sheet.rate("edge-feel", 3);
    sheet.rate("upper-reach", 2);
    sheet.rate("strap-buttons", 3);
    sheet.rate("loose-hardware", 2, "one cover screw");
    sheet.rate("play-trial", 1, "tiring above fret 5, first position sharp");
    sheet.remark("Came by train in its bag, strings at pitch.");
}

void dray_hands_after(Sheet& sheet) {
    sheet.sit_down({"after", "Joon Aster", "2026-11-06", 13 * 60});
    sheet.rate("headstock-break", 3);
    sheet.rate("nut-seat", 3);
    sheet.rate("nut-slots", 3, "", {{"string", 4}}, {"photos/dray/nut_after.jpg"});
    sheet.rate("tuners", 3, "a drop of oil on the second", {{"string", 2}});
    sheet.rate("rod-access", 3);
    sheet.rate("rod-answers", 3, "followed to an eighth");
    sheet.rate("board-end", 3);
    sheet.rate("fret-seat", 3);
    sheet.rate("fret-crown", 2);
    sheet.rate("bridge-fixings", 3);
    sheet.rate("saddle-burrs", 3);
    sheet.rate("string-age", 2);
    sheet.rate("jack-hold", 3);
    sheet.rate("loose-hardware", 3);
    sheet.rate("strap-buttons", 3);
    sheet.rate("play-trial", 3, "ten minutes of her own set, no place fought back");
    sheet.remark("Relief and heights once more in a fortnight: a neck goes on moving after the rod.");
}

}  // namespace fallaway::demo
