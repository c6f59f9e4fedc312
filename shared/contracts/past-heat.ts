/** What the places of a pile have been through: a peak that has passed still decides what the batch is worth. */
import { z } from 'zod';
import { messageSchema } from '../messages/message.ts';
import { positionSchema } from '../names.ts';
import { instantSchema } from './time.ts';

export const pastHeatSchema = z.object({
  /** The limits it is counted by [°C]: where to act, and where the culture is being lost. */
  actC: z.number(),
  lossC: z.number(),
  places: z.array(
    z.object({
      position: positionSchema,
      peakC: z.number(),
      peakAt: instantSchema,
      /** At or above each limit, on straight lines between readings that are at most a day apart [h]. */
      actH: z.number(),
      lossH: z.number(),
      /** It was that hot for so long that the culture there may be lost, and nobody has smelt or looked since. */
      mayBeLost: z.boolean(),
    }),
  ),
  /** One sentence; null where nothing came to the limit to act. */
  says: z.string().nullable(),
  messages: z.object({ says: messageSchema.nullable() }),
});
export type PastHeatAnswer = z.infer<typeof pastHeatSchema>;
