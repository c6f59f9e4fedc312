/** Where probes sit in the drawing and where their labels stand. */
import type { Position } from '../../../../shared/names.ts';
import { drawing, type MoundShape, type Point, skinYAt } from './mound-shape.ts';

export const labelX = 240;

/** Where a probe at a position is drawn. */
export function probePoint(shape: MoundShape, position: Position): Point {
  const { centreX, halfWidth, groundY, height, focus } = shape;
  const under = (x: number, depth: number) => ({ x, y: (skinYAt(shape, x) ?? groundY - height) + depth });
  switch (position) {
    case 'core':
      return focus;
    case 'top':
      return under(centreX + 0.1 * halfWidth, 0.11 * height);
    case 'base':
      return { x: centreX + 0.22 * halfWidth, y: groundY - 0.1 * height };
    case 'edge':
      return under(centreX + 0.84 * halfWidth, 0.18 * height);
    case 'air':
      return { x: drawing.centreX + drawing.halfWidth + 12, y: groundY - 14 };
  }
}

/** Moves label heights apart, in their order, until each has `gap` and all stay within the bounds. */
export function spreadRows(wanted: readonly number[], gap: number, top: number, bottom: number): number[] {
  const rows: number[] = [];
  for (const y of wanted) rows.push(Math.max(y, (rows.at(-1) ?? top - gap) + gap));
  let floor = bottom;
  for (let i = rows.length - 1; i >= 0; i--) {
    rows[i] = Math.min(rows[i] as number, floor);
    floor = (rows[i] as number) - gap;
  }
  return rows;
}

/** Heights of the labels beside the drawing, each as near to its probe as the others allow. */
export function labelRows(shape: MoundShape, places: readonly Position[]): number[] {
  return spreadRows(
    places.map((position) => probePoint(shape, position).y),
    27,
    14,
    drawing.height - 10,
  );
}
