/**
 * The outline of a drawn pile and the shells inside it. It never means to be to scale sideways; the height follows the
 * depth.
 */
export interface Point {
  readonly x: number;
  readonly y: number;
}

export interface MoundShape {
  /** Left to right along the skin, starting and ending on the ground. */
  readonly skin: readonly Point[];
  readonly centreX: number;
  readonly groundY: number;
  readonly halfWidth: number;
  readonly height: number;
  /** Where the heat gathers: a little above the middle of the height. */
  readonly focus: Point;
}

export const drawing = { width: 356, height: 176, groundY: 148, centreX: 112, halfWidth: 100 } as const;

const pointsAlongSkin = 48;

/** Depth to drawn height: a thin bed stays visible, a high heap stays on the page. */
export function drawnHeight(depthM: number): number {
  const [lowM, highM] = [0.1, 0.6];
  const part = Math.sqrt((Math.min(highM, Math.max(lowM, depthM)) - lowM) / (highM - lowM));
  return 58 + part * 66;
}

export function moundShape(depthM: number, seed: string): MoundShape {
  const { groundY, centreX, halfWidth } = drawing;
  const height = drawnHeight(depthM);
  const wobble = wobbleOf(seed);
  const skin: Point[] = [];
  for (let i = 0; i <= pointsAlongSkin; i++) {
    // Cosine spacing puts more points on the steep flanks.
    const across = -Math.cos((Math.PI * i) / pointsAlongSkin);
    const rise = (1 - Math.abs(across) ** 2.3) ** 0.72;
    const unevenness = 1 + 0.035 * wobble(across) * Math.sqrt(rise);
    skin.push({ x: centreX + across * halfWidth, y: groundY - height * rise * unevenness });
  }
  return { skin, centreX, groundY, halfWidth, height, focus: { x: centreX, y: groundY - 0.46 * height } };
}

/** A slow wave that differs from pile to pile but never between two drawings of the same one. */
function wobbleOf(seed: string): (across: number) => number {
  let hash = 2166136261;
  for (const content of seed) hash = Math.imul(hash ^ content.charCodeAt(0), 16777619) >>> 0;
  const phase = (shift: number) => (((hash >>> shift) & 0xff) / 255) * 2 * Math.PI;
  return (across) =>
    0.6 * Math.sin(2.2 * across + phase(0)) +
    0.4 * Math.sin(4.7 * across + phase(8)) +
    0.2 * Math.sin(9 * across + phase(16));
}

/**
 * The closed outline of the shell at `inward` (0 the skin itself, 1 the core's middle): drawn towards the focus and
 * rounder the deeper it lies.
 */
export function shellPoints(shape: MoundShape, inward: number): Point[] {
  const { skin, focus, centreX, groundY, halfWidth, height } = shape;
  const size = 1 - 0.86 * inward;
  const floor = Array.from({ length: 16 }, (_, i) => ({
    x: centreX + halfWidth * (1 - (2 * (i + 1)) / 17),
    y: groundY,
  }));
  return [...skin, ...floor].map((point) => {
    const angle = Math.atan2((point.y - focus.y) / (0.5 * height), (point.x - focus.x) / halfWidth);
    const round = { x: focus.x + Math.cos(angle) * halfWidth * 0.96, y: focus.y + Math.sin(angle) * height * 0.5 };
    const roundness = 1 - (1 - inward) ** 4;
    return {
      x: focus.x + (mix(point.x, round.x, roundness) - focus.x) * size,
      y: focus.y + (mix(point.y, round.y, roundness) - focus.y) * size,
    };
  });
}

export function shellPath(shape: MoundShape, inward: number): string {
  return `${pathOf(shellPoints(shape, inward))}Z`;
}

export function pathOf(points: readonly Point[]): string {
  return points.map(({ x, y }, i) => `${i === 0 ? 'M' : 'L'}${x.toFixed(1)} ${y.toFixed(1)}`).join('');
}

/** Height of the skin above a place on the ground, or undefined beside the pile. */
export function skinYAt(shape: MoundShape, x: number): number | undefined {
  const after = shape.skin.findIndex((point) => point.x >= x);
  const right = shape.skin[after];
  const left = shape.skin[after - 1];
  if (!left || !right) return undefined;
  return mix(left.y, right.y, (x - left.x) / (right.x - left.x));
}

function mix(from: number, to: number, part: number): number {
  return from + (to - from) * part;
}
