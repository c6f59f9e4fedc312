/** A pile's label: its name and a code that opens its journal. */
import { qrPath } from '../../../shared/qr-path.ts';

/** @param address What the code opens. @returns An SVG 60 mm wide that prints in black on white. */
export async function labelSvg(name: string, siteName: string, address: string): Promise<string> {
  const { size: side, path } = await qrPath(address);
  const height = side * 1.24;
  const line = (text: string, y: number, share: number, weight: number) =>
    `<text x="${side / 2}" y="${y}" font-size="${side * share}" font-weight="${weight}" text-anchor="middle" font-family="sans-serif"${pressed(text, side, share)}>${xml(text)}</text>`;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="${Math.round((height / side) * 600) / 10}mm" viewBox="0 0 ${side} ${height}" role="img">`,
    `<title>${xml(`${name}, ${siteName}`)}</title>`,
    `<rect width="${side}" height="${height}" fill="#fff"/>`,
    `<path d="${path}" fill="#000" shape-rendering="crispEdges"/>`,
    line(name, side * 1.07, 0.085, 700),
    line(siteName, side * 1.17, 0.06, 400),
    '</svg>',
  ].join('\n');
}

/** Long names are pressed together rather than cut. */
function pressed(text: string, side: number, share: number): string {
  const rough = [...text].length * side * share * 0.6;
  return rough > side * 0.94 ? ` textLength="${side * 0.94}" lengthAdjust="spacingAndGlyphs"` : '';
}

function xml(text: string): string {
  return text
    .replace(/\p{Cc}/gu, '')
    .replace(/&/g, '&amp;')
    .replace(/</g, '&lt;')
    .replace(/>/g, '&gt;')
    .replace(/"/g, '&quot;');
}
