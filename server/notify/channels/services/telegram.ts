/**
 * Messages of a bot by Telegram. The service's own page was not to be had: the parameters of `sendMessage` and the length
 * of its text are from a copy of that table (effect-ak.github.io/tg-bot-api/send-message), `ResponseParameters` from
 * several client libraries that quote it word for word; address, buttons and `description` are from memory.
 */
import { z } from 'zod';
import { jsonAsk, plainText, type ServiceSender, textAt } from './sender.ts';

/** `text` holds 4,096 characters. */
const mostCharacters = 3_800;
const waitSchema = z.object({ parameters: z.object({ retry_after: z.number().nonnegative() }) });

export const telegramSender: ServiceSender = {
  ask({ job, values, server, gravity, ways }) {
    const buttons = ways.map(({ label, url }) => [{ text: label, url }]);
    return jsonAsk('POST', `${server}/bot${values.token}/sendMessage`, {
      chat_id: values.chat,
      text: `${job.content.title}\n\n${plainText(job, mostCharacters)}`,
      link_preview_options: { is_disabled: true },
      disable_notification: gravity === 0,
      ...(buttons.length === 0 ? {} : { reply_markup: { inline_keyboard: buttons } }),
    });
  },
  fault: (body) => textAt(body, 'description'),
  retryAfterMs(body) {
    const { data } = waitSchema.safeParse(body);
    return data && data.parameters.retry_after * 1000;
  },
};
