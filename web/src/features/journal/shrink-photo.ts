/** A photo made small enough to wait on a phone and travel over a weak line. */
import { photoLimits, photoTypes } from '../../../../shared/contracts/journal.ts';

const longestSide = photoLimits.keptSide;

export function sizeWithin(width: number, height: number, longest: number): { width: number; height: number } {
  const scale = Math.min(1, longest / Math.max(width, height));
  return { width: Math.max(1, Math.round(width * scale)), height: Math.max(1, Math.round(height * scale)) };
}

/** A file that cannot be a photo here: of another type, or too large. */
export class PhotoRefused extends Error {
  constructor(readonly why: 'type' | 'size') {
    super(why);
  }
}

/** @throws {PhotoRefused} */
export async function shrinkPhoto(file: Blob): Promise<Blob> {
  const drawn = await draw(file).catch(() => undefined);
  if (drawn) return drawn;
  if (!(photoTypes as readonly string[]).includes(file.type)) {
    throw new PhotoRefused('type');
  }
  if (file.size > photoLimits.bytes) throw new PhotoRefused('size');
  return file;
}

async function draw(file: Blob): Promise<Blob | undefined> {
  const picture = await createImageBitmap(file);
  const { width, height } = sizeWithin(picture.width, picture.height, longestSide);
  const canvas = document.createElement('canvas');
  canvas.width = width;
  canvas.height = height;
  const context = canvas.getContext('2d');
  context?.drawImage(picture, 0, 0, width, height);
  picture.close();
  if (!context) return undefined;
  return new Promise((resolve) => canvas.toBlob((blob) => resolve(blob ?? undefined), 'image/jpeg', 0.85));
}
