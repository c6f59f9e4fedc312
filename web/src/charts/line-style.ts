/** How the line of each position is drawn; distinguished by dash and weight as well as by colour. */
import type { Position } from '../../../shared/names.ts';

export interface LineStyle {
  /** Name of the colour in style/tokens.css. */
  readonly token: string;
  readonly width: number;
  readonly dash: readonly number[];
}

export const lineStyles: Record<Position, LineStyle> = {
  core: { token: '--line-core', width: 2.5, dash: [] },
  top: { token: '--line-top', width: 1.75, dash: [9, 3] },
  base: { token: '--line-base', width: 1.75, dash: [3, 2.5] },
  edge: { token: '--line-edge', width: 1.75, dash: [10, 3, 2, 3] },
  air: { token: '--line-air', width: 1.5, dash: [1.5, 3] },
};
