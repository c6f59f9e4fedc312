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
import type { Journal, PhotoRecord } from '../../../shared/store/journal.ts';
import { WorkLine } from '../../beside/work-line.ts';
import { drawPhoto, PhotoError } from '../../services/photos/draw-photo.ts';
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

export function registerPhotos(api: Api, { journal, photos, clock }: PhotosParts): void {
  const line = new WorkLine({ atOnce: 1, mostOfOne: mostPhotos, mostWaiting: 40 });
  const few = fewAtOnce(mostPhotos, 'Your other photos are still being drawn. Wait for them, then try again.');
  api.addContentTypeParser(
    [...photoTypes],
    { parseAs: 'buffer', bodyLimit: photoLimits.bytes },
    (_request, body, done) => done(null, body),
  );

  api.put(
    '/api/photos/:id',
    {
      config: { access: 'keeper', does: 'handed in a photo' },
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
      if (!Buffer.isBuffer(file)) return sendProblem(reply, 415, 'Send the picture itself: JPEG, PNG or WebP.');
      const digest = createHash('sha256').update(file).digest('hex');
      const before = await journal.photos.get(id);
      if (before?.digest === digest) return photoView(before);
      try {
        const person = request.person?.id ?? '';
        const { width, height, whole, small } = await line.run(person, () => drawPhoto(file));
        await photos.keep(digest, { width, height, whole, small });
        const record = { id, digest, width, height, bytes: whole.length, keptAtMs: clock.nowMs() };
        const kept = await journal.photos.add(record);
        return reply.code(kept === 'kept' ? 201 : 200).send(photoView(record));
      } catch (error) {
        if (error instanceof PhotoError) return sendProblem(reply, 422, `${error.message}.`);
        throw error;
      }
    },
  );

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

function photoView({ id, width, height, bytes }: PhotoRecord): Photo {
  const url = `/api/photos/${id}`;
  return { id, width, height, bytes, url, smallUrl: `${url}?size=small` };
}
