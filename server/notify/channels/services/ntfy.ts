/**
 * Messages to a topic of ntfy, published as JSON. Read of its `docs/publish.md`: "Publish as JSON", "Send HTTP request"
 * and "Limitations"; its `server/errors.go` at commit 01fd4754. The header with the access token is from memory.
 */
import { jsonAsk, plainText, type ServiceSender, textAt } from './sender.ts';

/** `default`, `high`, `max`. */
const priorities = [3, 4, 5, 5] as const;
/** "Limitations": a message holds 4,096 bytes. */
const mostCharacters = 1_300;

export const ntfySender: ServiceSender = {
  ask({ job: { content, ack, pageUrl }, job, values, server, gravity, words }) {
    const acknowledge = ack?.url === undefined ? [] : [acknowledgeAction(words.seenIt, ack.url)];
    const look = pageUrl === undefined ? [] : [{ action: 'view', label: words.look, url: pageUrl }];
    const message = {
      topic: values.topic,
      title: content.title,
      message: plainText(job, mostCharacters),
      priority: priorities[gravity],
      ...(pageUrl === undefined ? {} : { click: pageUrl }),
      actions: [...acknowledge, ...look],
    };
    const { token } = values;
    return jsonAsk('POST', `${server}/`, message, token === undefined ? {} : { Authorization: `Bearer ${token}` });
  },
  fault: (body) => textAt(body, 'error'),
};

/** The phone itself calls it; once it was taken the notification goes. */
const acknowledgeAction = (label: string, url: string) => ({
  action: 'http',
  label,
  url,
  method: 'POST',
  headers: { Accept: 'application/json' },
  clear: true,
});
