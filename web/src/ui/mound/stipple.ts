/** Dots that say damp, evenly scattered and always the same for the same pile. */
import { type MoundShape, type Point, skinYAt } from './mound-shape.ts';

export interface Dampness {
  readonly topFrac: number;
  readonly coreFrac: number;
  readonly baseFrac: number;
}

const mostDots = 260;

/** Fraction of wetness at a height: 0 the ground, 1 the skin's top. */
function dampAt({ topFrac, coreFrac, baseFrac }: Dampness, heightPart: number): number {
  return heightPart < 0.45
    ? baseFrac + (coreFrac - baseFrac) * (heightPart / 0.45)
    : coreFrac + (topFrac - coreFrac) * ((heightPart - 0.45) / 0.55);
}

/**
 * Points of an R2 low-discrepancy sequence, each kept while its own rank is under the dampness where it falls, so that
 * wetting adds dots between those already there. Source: M. Roberts, "The unreasonable effectiveness of quasirandom
 * sequences", 2018 (plastic number 1.32471795724474602596).
 */
export function stipple(shape: MoundShape, damp: Dampness): Point[] {
  const plastic = 1.324717957244746;
  const dots: Point[] = [];
  for (let i = 1; i <= mostDots; i++) {
    const x = shape.centreX + shape.halfWidth * (2 * ((0.5 + i / plastic) % 1) - 1);
    const part = (0.5 + i / plastic ** 2) % 1;
    const y = shape.groundY - part * shape.height;
    const skinY = skinYAt(shape, x);
    if (skinY === undefined || y < skinY + 3 || y > shape.groundY - 2) continue;
    const rank = (i * 0.618033988749895) % 1;
    if (rank < dampAt(damp, part)) dots.push({ x, y });
  }
  return dots;
}
