/** A message as plain text and as simple HTML. It never lets a name or a note become markup. */
import { type Message, message } from '../../../shared/messages/message.ts';
import { plainSpaces, render } from '../../../shared/messages/render.ts';
import type { Severity } from '../../../shared/warning.ts';
import type { Job } from './channel.ts';
import { readerOf } from './render-content.ts';

/** None of what frames a message has a moment in it. */
const sayerOf =
  ({ reader }: Job) =>
  (said: Message): string =>
    plainSpaces(render(said, readerOf(reader, 0)));

export function mailText(job: Job): string {
  const { content, pageUrl, ack } = job;
  const say = sayerOf(job);
  const lines = [content.sentence, ''];
  for (const { label, text } of content.parts) lines.push(`${label}: ${text}`, '');
  if (ack?.url !== undefined) lines.push(say(message('mail.seen-it-by-address')), ack.url, '');
  if (pageUrl !== undefined) lines.push(say(message('mail.look-by-address')), pageUrl, '');
  lines.push('--', say(message('mail.foot')), '');
  return lines.join('\n');
}

/** The tones of web/src/ui/style/tokens.css, by hand: mail programs know no variables. */
const tones: Record<Severity | 'over', string> = {
  notice: '#2f5540',
  warning: '#2f4f66',
  urgent: '#1d3266',
  danger: '#0d1611',
  over: '#2f5540',
};

export function mailHtml(job: Job, tone: Severity | 'over'): string {
  const { content, pageUrl, ack, reader } = job;
  const say = (said: Message) => escaped(sayerOf(job)(said));
  const colour = tones[tone];
  const parts = content.parts
    .map(
      ({ label, text }) =>
        `<p style="margin:0 0 14px"><b style="color:#3f4d45">${escaped(label)}</b><br>${escaped(text)}</p>`,
    )
    .join('');
  const button =
    ack?.url === undefined
      ? ''
      : `<p style="margin:22px 0"><a href="${escaped(ack.url)}" style="display:inline-block;background:${colour};color:#ffffff;padding:14px 22px;border-radius:6px;text-decoration:none;font-weight:bold">${say(message('mail.seen-it'))}</a></p>`;
  const page =
    pageUrl === undefined
      ? ''
      : `<p style="margin:0 0 14px"><a href="${escaped(pageUrl)}" style="color:#0b5560">${say(message('mail.look'))}</a></p>`;
  return `<!doctype html><html lang="${escaped(reader.language)}"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width"><title>${escaped(content.title)}</title></head><body style="margin:0;background:#f5f8f5;color:#14201a;font:17px/1.5 system-ui,-apple-system,'Segoe UI',Roboto,sans-serif"><div style="max-width:560px;margin:0 auto;padding:22px 18px"><p style="margin:0 0 18px;padding:14px 16px;background:#fcfdfc;border-left:6px solid ${colour};font-size:20px">${escaped(content.sentence)}</p>${parts}${button}${page}<p style="margin:24px 0 0;font-size:14px;color:#3f4d45">${say(message('mail.foot'))}</p></div></body></html>`;
}

export function escaped(text: string): string {
  return text.replace(/[&<>"']/g, (sign) => `&#${sign.charCodeAt(0)};`);
}
