/** Messages through a server with the Apprise API: `/notify/{key}`, read in its `swagger.yaml`, version 1.4.0. */
import { inText, jsonAsk, plainText, type ServiceSender, textAt } from './sender.ts';

const types = ['info', 'warning', 'failure', 'failure'] as const;
const mostCharacters = 4_000;

export const appriseSender: ServiceSender = {
  ask({ job, values, server, gravity, ways }) {
    const { content, notice } = job;
    const body = [plainText(job, mostCharacters), ...ways.map(inText)].join('\n\n');
    const type = notice.answer === 'cleared' ? 'success' : types[gravity];
    return jsonAsk(
      'POST',
      `${server}/notify/${encodeURIComponent(values.key ?? '')}`,
      { title: content.title, body, type, format: 'text' },
      { Accept: 'application/json' },
    );
  },
  fault: (body) => textAt(body, 'error'),
  // Nothing is kept there under that key.
  notSent: [204],
  // One of the services behind it could not be reached.
  passing: [424],
};
