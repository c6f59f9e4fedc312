/**
 * Messages to a room of Matrix. The transaction has the id of our message, so a second attempt adds no second one. Read of
 * the specification's sources, as of v1.18: `room_send.yaml`, `m.mentions.yaml`, `rate_limited.yaml`. The kinds of
 * `m.room.message` are from memory.
 */
import { z } from 'zod';
import { escaped } from '../mail-body.ts';
import { inText, jsonAsk, plainText, type ServiceSender, textAt } from './sender.ts';

const mostCharacters = 10_000;
/** Of servers before v1.10; those since say it in the header (from memory). */
const waitSchema = z.object({ retry_after_ms: z.number().nonnegative() });

export const matrixSender: ServiceSender = {
  ask({ job, values, server, gravity, ways }) {
    const { content, message } = job;
    const text = plainText(job, mostCharacters);
    const html = [
      `<strong>${escaped(content.title)}</strong>`,
      escaped(text).replaceAll('\n', '<br>'),
      ...ways.map(({ label, url }) => `<a href="${escaped(url)}">${escaped(label)}</a>`),
    ];
    const body = [content.title, text, ...ways.map(inText)];
    const room = encodeURIComponent(values.room ?? '');
    return jsonAsk(
      'PUT',
      `${server}/_matrix/client/v3/rooms/${room}/send/m.room.message/${encodeURIComponent(message.id)}`,
      {
        msgtype: gravity === 0 ? 'm.notice' : 'm.text',
        body: body.join('\n\n'),
        format: 'org.matrix.custom.html',
        formatted_body: html.join('<br><br>'),
        'm.mentions': gravity >= 2 ? { room: true } : {},
      },
      { Authorization: `Bearer ${values.token}` },
    );
  },
  fault: (body) => textAt(body, 'error') ?? textAt(body, 'errcode'),
  retryAfterMs(body) {
    const { data } = waitSchema.safeParse(body);
    return data?.retry_after_ms;
  },
};
