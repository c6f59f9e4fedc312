/**
 * What the colours of the pages are judged by.
 *
 * Source: B. Ottosson, "A perceptual color space for image processing", 2020 (Oklab matrices);
 *         WCAG 2.2, definitions of relative luminance and contrast ratio.
 */
import type { Triple } from '../../web/src/ui/colour/oklab.ts';

export function linearFromHex(hex: string): Triple {
  const channel = (start: number) => {
    const value = Number.parseInt(hex.slice(start, start + 2), 16) / 255;
    return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
  };
  return [channel(1), channel(3), channel(5)];
}

/** White is [1, 0, 0]; distances in this space are near even to the eye. */
export function oklabFromLinear([r, g, b]: Triple): Triple {
  const l = Math.cbrt(0.4122214708 * r + 0.5363325363 * g + 0.0514459929 * b);
  const m = Math.cbrt(0.2119034982 * r + 0.6806995451 * g + 0.1073969566 * b);
  const s = Math.cbrt(0.0883024619 * r + 0.2817188376 * g + 0.6299787005 * b);
  return [
    0.2104542553 * l + 0.793617785 * m - 0.0040720468 * s,
    1.9779984951 * l - 2.428592205 * m + 0.4505937099 * s,
    0.0259040371 * l + 0.7827717662 * m - 0.808675766 * s,
  ];
}

function luminance(hex: string): number {
  const [r, g, b] = linearFromHex(hex);
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

/** Contrast ratio of WCAG 2.2, 1 to 21. @example contrastRatio('#000000', '#ffffff') // => 21 */
export function contrastRatio(one: string, other: string): number {
  const [dark, light] = [luminance(one), luminance(other)].sort((a, b) => a - b) as [number, number];
  return (light + 0.05) / (dark + 0.05);
}
