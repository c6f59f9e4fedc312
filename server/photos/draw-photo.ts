/**
 * server/photos/draw-photo.ts: a photo as it was sent, drawn anew in the two sizes we keep.
 *
 * Takes:  a JPEG, PNG or WebP file.
 * Gives:  two JPEGs, upright, with no more in them than the picture: no place, no time, no camera.
 * Never:  hands anything else to the decoder, or decodes more than one at a time.
 */
import { photoLimits } from '../../shared/api/journal.ts';

export interface DrawnPhoto {
  readonly whole: Buffer;
  readonly small: Buffer;
  readonly width: number;
  readonly height: number;
}

/** The file is not a picture we can draw; the message says why, for the person. */
export class PhotoError extends Error {
  override readonly name = 'PhotoError';
}

/** Its library takes 12 MB of memory, and many a house never sees a photo. */
async function openDrawer() {
  const { default: sharp } = await import('sharp');
  sharp.cache(false);
  sharp.concurrency(1);
  return sharp;
}

let turn: Promise<unknown> = Promise.resolve();

/** @throws {PhotoError} When it is no picture of a kind we take, is broken or too large. */
export function drawPhoto(file: Buffer): Promise<DrawnPhoto> {
  const drawn = turn.then(() => draw(file));
  turn = drawn.catch(() => undefined);
  return drawn;
}

async function draw(file: Buffer): Promise<DrawnPhoto> {
  if (!isPicture(file)) throw new PhotoError('This is not a JPEG, PNG or WebP picture');
  const sharp = await openDrawer();
  try {
    // Turned upright by its own note first, for that note goes with all the others. What is see-through becomes white.
    const upright = sharp(file, { limitInputPixels: photoLimits.pixels, failOn: 'error' })
      .autoOrient()
      .flatten({ background: '#fff' });
    const within = (side: number) => ({ width: side, height: side, fit: 'inside', withoutEnlargement: true }) as const;
    const whole = await upright
      .clone()
      .resize(within(photoLimits.keptSide))
      .jpeg({ quality: 80, mozjpeg: true })
      .toBuffer({ resolveWithObject: true });
    const small = await sharp(whole.data).resize(within(photoLimits.smallSide)).jpeg({ quality: 75 }).toBuffer();
    return { whole: whole.data, small, width: whole.info.width, height: whole.info.height };
  } catch (cause) {
    const tooLarge = cause instanceof Error && /pixel limit/i.test(cause.message);
    const why = tooLarge
      ? `This picture is larger than ${photoLimits.pixels / 1e6} million pixels`
      : 'This picture is damaged or was not sent whole';
    throw new PhotoError(why, { cause });
  }
}

/** By the first bytes: what a file calls itself proves nothing. */
function isPicture(file: Buffer): boolean {
  const isJpeg = file.length > 3 && file[0] === 0xff && file[1] === 0xd8 && file[2] === 0xff;
  const isPng = file.subarray(0, 8).equals(Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]));
  const isWebp = file.toString('latin1', 0, 4) === 'RIFF' && file.toString('latin1', 8, 12) === 'WEBP';
  return isJpeg || isPng || isWebp;
}
