/**
 * A photo as it was sent, drawn anew in the two sizes we keep. It never hands anything else to the decoder, or decodes
 * for longer than a photo takes. Its library works in threads of its own; who may use it when is the caller's.
 */
import { photoLimits } from '../../../shared/contracts/journal.ts';
import { inCode, type Message, message } from '../../../shared/messages/message.ts';

export interface DrawnPhoto {
  readonly whole: Buffer;
  readonly small: Buffer;
  readonly width: number;
  readonly height: number;
}

/** The file is not a picture we can draw. */
export class PhotoError extends Error {
  override readonly name = 'PhotoError';
  constructor(
    /** Why, for the person. */
    readonly said: Message,
    options?: ErrorOptions,
  ) {
    super(inCode(said), options);
  }
}

/** Its library takes 12 MB of memory, and many a server never sees a photo. */
async function openDrawer() {
  const { default: sharp } = await import('sharp');
  sharp.cache(false);
  sharp.concurrency(1);
  return sharp;
}

/** A photo of 50 million pixels takes three or four on a small machine. */
const longestS = 30;

/** @throws {PhotoError} When it is no picture of a kind we take, is broken, too large, or takes too long. */
export async function drawPhoto(file: Buffer): Promise<DrawnPhoto> {
  if (!isPicture(file)) throw new PhotoError(message('problem.photo.not-a-picture'));
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
      .timeout({ seconds: longestS })
      .toBuffer({ resolveWithObject: true });
    const small = await sharp(whole.data).resize(within(photoLimits.smallSide)).jpeg({ quality: 75 }).toBuffer();
    return { whole: whole.data, small, width: whole.info.width, height: whole.info.height };
  } catch (cause) {
    const tooLarge = cause instanceof Error && /pixel limit/i.test(cause.message);
    throw new PhotoError(tooLarge ? tooManyPixels : tookTooLong(cause) ? tooLong : damaged, { cause });
  }
}

const tooManyPixels = message('problem.photo.too-many-pixels', { megapixelsNumber: photoLimits.pixels / 1e6 });
const tooLong = message('problem.photo.too-slow', { secondsCount: longestS });
const damaged = message('problem.photo.damaged');

const tookTooLong = (cause: unknown) => cause instanceof Error && /timeout/i.test(cause.message);

/** By the first bytes: what a file calls itself proves nothing. */
function isPicture(file: Buffer): boolean {
  const isJpeg = file.length > 3 && file[0] === 0xff && file[1] === 0xd8 && file[2] === 0xff;
  const isPng = file.subarray(0, 8).equals(Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]));
  const isWebp = file.toString('latin1', 0, 4) === 'RIFF' && file.toString('latin1', 8, 12) === 'WEBP';
  return isJpeg || isPng || isWebp;
}
