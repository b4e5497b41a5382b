// A neck of an invented instrument, made from a known answer: three strings that stand straight over five level fret tops.

import type { Survey, SurveyLine } from "../../src/api/types";
import { partOf } from "../../src/survey/section";

const figure = (value: number, u = 0.02) => ({ value, u, unit: "mm", text: `${value.toFixed(2)} ± ${u.toFixed(2)} mm` });

/** Room of the open string over a fret, mm: straight from 0.1 at the nut to 6 at the saddle. */
export const openAt = (fret: number): number => 0.1 + 5.9 * partOf(fret);

/** Held at a fret, over the next one. */
export const nextAt = (fret: number): number =>
  fret === 0 ? openAt(1) : (6 * (partOf(fret + 1) - partOf(fret))) / (1 - partOf(fret));

export const level = (level_mm: number, fret: number, sure = true): SurveyLine => ({
  level_mm,
  sure,
  frets: [fret, fret, fret],
  strings: [1, 2, 3],
});

/** Tops that fall by 0.02 mm a fret from fret 3 on, in both directions: 0 there. */
export const falling = (fret: number): number => -0.02 * (fret - 3);

export function survey(more: Partial<Survey> = {}): Survey {
  const frets = [1, 2, 3, 4, 5];
  return {
    readings: 9,
    left_out: 0,
    assumed: [],
    relief: figure(0.2),
    relief_at: 3,
    fallaway: figure(0.01),
    board: {
      radius_nut_mm: 250,
      radius_end_mm: 400,
      radius_known: true,
      fret_height_mm: 1.2,
      fret_height_known: true,
      scales_mm: [600, 600, 600],
      strings_nut_mm: [7, 0, -7],
      strings_saddle_mm: [10, 0, -10],
    },
    strings: [1, 2, 3].map((string) => ({
      string,
      assumed: [],
      slot: figure(0.1),
      over_first: figure(openAt(1)),
      over_twelfth: figure(openAt(5)),
      over_last: figure(openAt(5)),
      next_fret_mm: [0, 1, 2, 3, 4].map(nextAt),
      next_fret_mm_se: [0, 1, 2, 3, 4].map(() => 0.02),
      open_mm: frets.map(openAt),
      open_mm_se: frets.map(() => 0.02),
      least: figure(string === 2 ? 0.1 : 0.3),
      least_held: string === 2 ? 3 : 0,
      least_over: string === 2 ? 4 : 1,
    })),
    crowns: frets.map((fret) => ({
      fret,
      assumed: false,
      off: figure(falling(fret)),
      off_mm: [1, 2, 3].map(() => falling(fret)),
      off_mm_se: [0.01, 0.01, 0.01],
      heights_mm: [0, 0, 0],
      heights_mm_se: [0, 0, 0],
    })),
    contour_step_mm: 0.02,
    contours: [level(0, 3), level(-0.02, 4), level(0.02, 2, false)],
    disagreements: [],
    next: [],
    ...more,
  };
}
