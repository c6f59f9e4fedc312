/** Whether the browser that asks is served; every page asks it, so it stands apart from what one page needs of notifications. */
import { z } from 'zod';

/** Whether the browser that asks is signed up for whoever sits there. */
export const deviceHereAnswerSchema = z.object({
  isSubscribed: z.boolean(),
  /** With which a browser subscribes now; one that did so with another gets nothing any more. */
  pushKey: z.string(),
});
