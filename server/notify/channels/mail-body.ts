/** A letter as plain text and as simple HTML. It never lets a name or a note become markup. */
import type { Severity } from '../../../shared/warning.ts';
import type { Job } from './channel.ts';

const foot = 'Sensors alone never say that a pile is ready or safe. These messages are no fire protection.';

export function mailText({ content, pageUrl, ack }: Job): string {
  const lines = [content.sentence, ''];
  for (const { label, text } of content.parts) lines.push(`${label}: ${text}`, '');
  if (ack?.url !== undefined) lines.push('I have seen this (opens a page with one button):', ack.url, '');
  if (pageUrl !== undefined) lines.push('Look at it:', pageUrl, '');
  lines.push('--', foot, '');
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

export function mailHtml({ content, pageUrl, ack }: Job, tone: Severity | 'over'): string {
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
      : `<p style="margin:22px 0"><a href="${escaped(ack.url)}" style="display:inline-block;background:${colour};color:#ffffff;padding:14px 22px;border-radius:6px;text-decoration:none;font-weight:bold">I have seen this</a></p>`;
  const page =
    pageUrl === undefined
      ? ''
      : `<p style="margin:0 0 14px"><a href="${escaped(pageUrl)}" style="color:#0b5560">Look at it</a></p>`;
  return `<!doctype html><html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width"><title>${escaped(content.title)}</title></head><body style="margin:0;background:#f5f8f5;color:#14201a;font:17px/1.5 system-ui,-apple-system,'Segoe UI',Roboto,sans-serif"><div style="max-width:560px;margin:0 auto;padding:22px 18px"><p style="margin:0 0 18px;padding:14px 16px;background:#fcfdfc;border-left:6px solid ${colour};font-size:20px">${escaped(content.sentence)}</p>${parts}${button}${page}<p style="margin:24px 0 0;font-size:14px;color:#3f4d45">${escaped(foot)}</p></div></body></html>`;
}

export function escaped(text: string): string {
  return text.replace(/[&<>"']/g, (sign) => `&#${sign.charCodeAt(0)};`);
}
