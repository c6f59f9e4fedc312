/**
 * Which colour a temperature has in a drawn mound. It never stands alone: the number is always written beside the
 * colour.
 */
import {
  distance,
  hexFromLinear,
  linearFromOklab,
  mixTriple,
  type Oklch,
  oklabFromOklch,
  type Triple,
} from './oklab.ts';

export type Shade = 'light' | 'dark';

export const heatScaleFromC = 10;
export const heatScaleToC = 70;

/** From straw over amber to red in both; on light paper heat darkens, on dark paper it glows. */
const anchors: Record<Shade, readonly Oklch[]> = {
  light: [
    { lightness: 0.945, chroma: 0.04, hueDeg: 98 },
    { lightness: 0.87, chroma: 0.085, hueDeg: 93 },
    { lightness: 0.785, chroma: 0.125, hueDeg: 82 },
    { lightness: 0.68, chroma: 0.155, hueDeg: 59 },
    { lightness: 0.555, chroma: 0.165, hueDeg: 41 },
    { lightness: 0.43, chroma: 0.135, hueDeg: 29 },
    { lightness: 0.3, chroma: 0.085, hueDeg: 22 },
  ],
  dark: [
    { lightness: 0.29, chroma: 0.02, hueDeg: 130 },
    { lightness: 0.39, chroma: 0.05, hueDeg: 104 },
    { lightness: 0.5, chroma: 0.09, hueDeg: 88 },
    { lightness: 0.61, chroma: 0.12, hueDeg: 68 },
    { lightness: 0.7, chroma: 0.155, hueDeg: 48 },
    { lightness: 0.79, chroma: 0.11, hueDeg: 30 },
  ],
};

const samplesPerLeg = 40;
const steps = 240;

/** Walks the anchors with a smooth curve through them and keeps points at even distance to the eye. */
function evenScale(path: readonly Oklch[]): Triple[] {
  const points = path.map(oklabFromOklch);
  const walked: Triple[] = [];
  for (let leg = 0; leg < points.length - 1; leg++) {
    for (let sample = 0; sample < samplesPerLeg; sample++) walked.push(onCurve(points, leg, sample / samplesPerLeg));
  }
  walked.push(points[points.length - 1] as Triple);

  const lengths = [0];
  for (let i = 1; i < walked.length; i++) {
    lengths.push((lengths[i - 1] as number) + distance(walked[i - 1] as Triple, walked[i] as Triple));
  }
  const whole = lengths[lengths.length - 1] as number;
  const even: Triple[] = [];
  let after = 1;
  for (let step = 0; step <= steps; step++) {
    const wanted = (whole * step) / steps;
    while (after < walked.length - 1 && (lengths[after] as number) < wanted) after++;
    const from = lengths[after - 1] as number;
    const part = (wanted - from) / ((lengths[after] as number) - from);
    even.push(mixTriple(walked[after - 1] as Triple, walked[after] as Triple, part));
  }
  return even;
}

/** Catmull-Rom through four neighbouring points; ends are doubled. */
function onCurve(points: readonly Triple[], leg: number, part: number): Triple {
  const at = (index: number) => points[Math.min(points.length - 1, Math.max(0, index))] as Triple;
  const [p0, p1, p2, p3] = [at(leg - 1), at(leg), at(leg + 1), at(leg + 2)];
  const blend = (a: number, b: number, c: number, d: number) =>
    0.5 * (2 * b + (c - a) * part + (2 * a - 5 * b + 4 * c - d) * part ** 2 + (3 * b - a - 3 * c + d) * part ** 3);
  return [blend(p0[0], p1[0], p2[0], p3[0]), blend(p0[1], p1[1], p2[1], p3[1]), blend(p0[2], p1[2], p2[2], p3[2])];
}

const scales: Record<Shade, readonly Triple[]> = { light: evenScale(anchors.light), dark: evenScale(anchors.dark) };

/** Oklab of a temperature; outside 10..70 °C the ends go on. */
export function heatOklab(tempC: number, shade: Shade): Triple {
  const part = Math.min(1, Math.max(0, (tempC - heatScaleFromC) / (heatScaleToC - heatScaleFromC)));
  const place = part * steps;
  const below = Math.min(steps - 1, Math.floor(place));
  return mixTriple(scales[shade][below] as Triple, scales[shade][below + 1] as Triple, place - below);
}

export function heatColour(tempC: number, shade: Shade): string {
  return hexFromLinear(linearFromOklab(heatOklab(tempC, shade)));
}
