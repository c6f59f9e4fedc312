/**
 * Messages by Pushover. What is urgent is of emergency priority: it rings until somebody acknowledges, and the receipt
 * says that somebody did. Read: the parameters on pushover.net/api, and pushover.net/api/receipts. From memory: that it
 * takes them as JSON, and `errors`.
 */
import { z } from 'zod';
import { jsonAsk, plainText, type ServiceSender, textAt } from './sender.ts';

/** `normal`, `high`, `emergency`. */
const priorities = [0, 1, 2, 2] as const;
/** Of a message, as the manual of the R client pushoverr 1.1.0 has it. */
const mostCharacters = 1_024;
/**
 * Rings again every minute for an hour; by then the next reminder is due. At least 30 s apart, as the manual of pushoverr
 * 0.1.4 has it.
 */
const emergency = { retry: 60, expire: 3_600 };
const faultSchema = z.object({ errors: z.array(z.string()).min(1) });

export const pushoverSender: ServiceSender = {
  ask({ job, values, server, gravity, words }) {
    const { content, pageUrl, ack } = job;
    // What cannot be acknowledged would ring for nothing.
    const priority = ack === undefined ? Math.min(1, priorities[gravity]) : priorities[gravity];
    const url = ack?.url ?? pageUrl;
    return jsonAsk('POST', `${server}/1/messages.json`, {
      token: values.token,
      user: values.user,
      title: content.title,
      message: plainText(job, mostCharacters),
      priority,
      ...(priority === 2 ? emergency : {}),
      ...(url === undefined ? {} : { url, url_title: ack?.url === undefined ? words.look : words.seenIt }),
    });
  },
  fault(body) {
    const { data } = faultSchema.safeParse(body);
    return data?.errors.join('; ');
  },
  receiptOf: (body) => textAt(body, 'receipt'),
};
