/** Photos for entries, sent before the entry that names them. */
import { createHash } from 'node:crypto';
import { z } from 'zod';
import type { Clock } from '../../../shared/clock.ts';
import {
  clientIdSchema,
  mostPhotos,
  type Photo,
  photoLimits,
  photoQuerySchema,
  photoSchema,
  photoTypes,
} from '../../../shared/contracts/journal.ts';
import { message } from '../../../shared/messages/message.ts';
import type { Journal, PhotoRecord } from '../../../shared/store/journal.ts';
import { WorkLine } from '../../beside/work-line.ts';
import { type DrawnPhoto, drawPhoto, PhotoError } from '../../services/photos/draw-photo.ts';
import type { PhotoStore } from '../../services/photos/photo-store.ts';
import type { Api } from '../api.ts';
import { fewAtOnce } from '../few-at-once.ts';
import { fileAnswer } from '../file-answer.ts';
import { notFound, sendProblem } from '../problem.ts';

const photoParams = z.object({ id: clientIdSchema });
const yearS = 31_536_000;

interface PhotosParts {
  readonly journal: Journal;
  readonly photos: PhotoStore;
  readonly clock: Clock;
}

export async function registerPhotos(api: Api, parts: PhotosParts): Promise<void> {
  // In a scope of its own: no other route takes a picture, or as much.
  await api.register(async (own: Api) => {
    own.addContentTypeParser(
      [...photoTypes],
      { parseAs: 'buffer', bodyLimit: photoLimits.bytes },
      (_request, body, done) => done(null, body),
    );
    registerPhotoUpload(own, parts);
  });
  registerPhotoFiles(api, parts);
}

function registerPhotoUpload(api: Api, parts: PhotosParts): void {
  const line = new WorkLine({ atOnce: 1, mostOfOne: mostPhotos, mostWaiting: 40 });
  const few = fewAtOnce(mostPhotos, message('problem.work.your-photos'));

  api.put(
    '/api/photos/:id',
    {
      config: { access: 'keeper', does: 'audit.did.handed-in-photo' },
      bodyLimit: photoLimits.bytes,
      ...few,
      schema: {
        params: photoParams,
        consumes: [...photoTypes],
        body: z.unknown(),
        description: 'The picture itself as body. Sent again under the same id, it changes nothing.',
        response: { 200: photoSchema, 201: photoSchema },
      },
    },
    async (request, reply) => {
      const { id } = request.params;
      const file = request.body;
      if (!Buffer.isBuffer(file)) return sendProblem(reply, 415, message('problem.photo.not-one'));
      const drawn = () => line.run(request.person?.id ?? '', () => drawPhoto(file));
      try {
        const { record, isNew } = await keepPhoto(parts, id, file, drawn);
        return reply.code(isNew ? 201 : 200).send(photoView(record));
      } catch (error) {
        if (error instanceof PhotoError) return sendProblem(reply, 422, error.said);
        throw error;
      }
    },
  );
}

function registerPhotoFiles(api: Api, { journal, photos }: PhotosParts): void {
  api.get(
    '/api/photos/:id',
    {
      config: { access: 'viewer' },
      schema: {
        params: photoParams,
        querystring: photoQuerySchema,
        response: fileAnswer('The picture.', 'image/jpeg'),
      },
    },
    async (request, reply) => {
      const record = await journal.photos.get(request.params.id);
      const picture = record && (await photos.read(record.digest, request.query.size));
      if (!picture) return notFound(reply, 'photo', request.params.id);
      return (
        reply
          .type('image/jpeg')
          .header('Cache-Control', `private, max-age=${yearS}, immutable`)
          .header('Content-Disposition', `inline; filename="${request.params.id}.jpg"`)
          // Should anyone ever open it as a document, it may do nothing.
          .header('Content-Security-Policy', "default-src 'none'; sandbox")
          .send(picture)
      );
    },
  );
}

/**
 * A picture sent again under the same id changes nothing, and is not drawn again.
 * @param draw Makes the sizes that are kept. @throws {PhotoError} When it cannot be drawn.
 */
async function keepPhoto(
  { journal, photos, clock }: PhotosParts,
  id: string,
  file: Buffer,
  draw: () => Promise<DrawnPhoto>,
): Promise<{ record: PhotoRecord; isNew: boolean }> {
  const digest = createHash('sha256').update(file).digest('hex');
  const before = await journal.photos.get(id);
  if (before?.digest === digest) return { record: before, isNew: false };
  const { width, height, whole, small } = await draw();
  await photos.keep(digest, { width, height, whole, small });
  const record = { id, digest, width, height, bytes: whole.length, keptAtMs: clock.nowMs() };
  return { record, isNew: (await journal.photos.add(record)) === 'kept' };
}

function photoView({ id, width, height, bytes }: PhotoRecord): Photo {
  const url = `/api/photos/${id}`;
  return { id, width, height, bytes, url, smallUrl: `${url}?size=small` };
}
