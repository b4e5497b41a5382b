#include "stories.h"

namespace fallaway::demo {

void heron_hands(Sheet& sheet) {
    sheet.sit_down({"arrival", "Ruta Vell", "2026-11-17", 10 * 60 + 5});
    sheet.rate("id-label", 3, "OH-0412 on the back of the head, in the pocket and on the bill", {},
               {"photos/heron/label.jpg"});
    sheet.rate("id-originality", 2, "control plate screws newer than the rest: it has been open before", {},
               {"photos/heron/plate_screws.jpg"});
    sheet.rate("wood-body", 2, "paint inside and out");
    sheet.rate("wood-neck-grain", 3);
    sheet.rate("wood-board-kind", 3, "under the loupe at frets 3 and 20");
    sheet.rate("wood-board", 2, "grey and thirsty, worst between frets 5 and 12", {},
               {"photos/heron/board_dry.jpg"});
    sheet.rate("inlays", 3);
    sheet.rate("headstock-break", 3, "low lamp from both sides", {}, {"photos/heron/head_back.jpg"});
    sheet.rate("finish-sticky", 3);
    sheet.rate("sand-neck", 2, "fine lines across the grain above the heel, not felt");
    sheet.rate("sand-cutaway", 2, "", {{"spot", "treble horn"}});
    sheet.rate("neck-screws", 3);
    sheet.rate("nut-seat", 3);
    sheet.rate("nut-material", 3, "bone, saw marks on the end");
    sheet.rate("nut-slots", 1, "third slot is deeper than its string is thick; the front edge is round",
               {{"string", 3}}, {"photos/heron/nut_slot_3.jpg"});
    sheet.rate("nut-slots", 3, "the other five", {});
    sheet.rate("tuners", 3);
    sheet.rate("rod-access", 3, "key seats");
    sheet.rate("board-end", 3);
    sheet.rate("fret-seat", 2, "light under the treble end of fret 9 for three strings' width",
               on_fret(9, "treble"), {"photos/heron/fret_9_light.jpg"});
    sheet.rate("fret-crown", 3, "levelled once, hardly played since");
    sheet.rate("bridge-fixings", 3);
    sheet.rate("saddle-burrs", 3);
    sheet.rate("string-age", 2, "10-46 by the player's word, two weeks old");
    sheet.rate("edge-feel", 1, "the bass edge from fret 4 to 13: fret ends, not wood", {{"side", "bass"}});
    sheet.rate("upper-reach", 3);
    sheet.rate("strap-buttons", 3);
    sheet.rate("loose-hardware", 2, "one tuner button screw");
    sheet.remark(
        "Fret ends were dressed flush once; the board has drawn back from them since the heating came on.",
        {{"side", "bass"}});

    sheet.sit_down({"arrival", "Joon Aster", "2026-11-18", 10 * 60});
    sheet.rate("pot-sweep", 3);
    sheet.rate("phase-hum", 3);
    sheet.rate("jack-hold", 2, "loose but silent; nut tightened by hand");
    sheet.rate("wiring-work", 2, "volume control is newer than the tone control, joints sound but untidy", {},
               {"photos/heron/cavity.jpg", "photos/heron/volume_stamp.jpg"});
    sheet.rate("play-trial", 1, "second string from 6 to 8, open third; above fret 12 a joy");
    sheet.rate("price-fair", 2);
    sheet.remark(
        "What the two coils of the bridge pickup read one by one differs by 2 %: sound, and simply less wire than "
        "the advert "
        "said.",
        {{"pickup", "bridge"}});
    // Seven looks repeated without sight of the first sheet.
    sheet.rate("headstock-break", 3);
    sheet.rate("wood-board", 2);
    sheet.rate("nut-seat", 3);
    sheet.rate("tuners", 3);
    sheet.rate("fret-seat", 2, "", on_fret(9, "treble"));
    sheet.rate("fret-crown", 3);
    sheet.rate("bridge-fixings", 3);
    sheet.remark(
        "Board, fret 9, nut in this order, and none of it before the neck stands still. Whether the pickup and "
        "the "
        "control matter at this price is the owner's to say.");
}

}  // namespace fallaway::demo
