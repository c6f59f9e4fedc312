/** How the API says no. RFC 9457 problem details, with a JSON Pointer (RFC 6901) per bad field. */
import { z } from 'zod';
import { messageSchema } from '../messages/message.ts';

export const problemSchema = z.object({
  type: z.string(),
  title: z.string(),
  status: z.number().int(),
  detail: z.string(),
  instance: z.string().optional(),
  errors: z
    .array(
      z.object({
        pointer: z.string(),
        detail: z.string(),
        messages: z.object({ detail: messageSchema }).optional(),
      }),
    )
    .optional(),
  /** What the sentences are made from; absent where something before the server refused, or a page did itself. */
  messages: z.object({ title: messageSchema, detail: messageSchema }).optional(),
});
export type Problem = z.infer<typeof problemSchema>;
