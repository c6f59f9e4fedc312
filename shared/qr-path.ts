/** A QR code (ISO/IEC 18004) as one SVG path. */
/** Modules of white around the code that readers need: ISO/IEC 18004 asks for 4. */
const quiet = 4;

export interface QrPath {
  /** Modules a side, with the white. */
  readonly size: number;
  /** The dark ones. */
  readonly path: string;
}

/** Level Q still reads with a quarter of it under mud or worn off. */
export async function qrPath(text: string): Promise<QrPath> {
  const { default: QRCode } = await import('qrcode'); // seldom needed
  const { modules } = QRCode.create(text, { errorCorrectionLevel: 'Q' });
  let path = '';
  for (let row = 0; row < modules.size; row++) {
    for (let column = 0; column < modules.size; column++) {
      if (modules.get(row, column)) path += `M${column + quiet} ${row + quiet}h1v1h-1z`;
    }
  }
  return { size: modules.size + 2 * quiet, path };
}
