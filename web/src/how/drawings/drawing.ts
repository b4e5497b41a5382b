import type { JSX } from "preact";

/** One figure of the manual: 300 units wide, `height` units high. */
export interface Drawing {
  title: string;
  /** One sentence for who cannot see it. */
  says: string;
  height: number;
  /** What is drawn larger than it is, written below the figure. */
  stretched?: string;
  draw: () => JSX.Element;
}
