/**
 * The page that a link in a message opens: what the message said, and one button. It never acknowledges on GET, whoever opens
 * it; the secret in the address is all that is asked for.
 */
import type { FastifyReply } from 'fastify';
import { z } from 'zod';
import { plainReader } from '../../../shared/messages/format.ts';
import { type Message, message } from '../../../shared/messages/message.ts';
import { plainSpaces, render } from '../../../shared/messages/render.ts';
import { type AcknowledgeByLinkParts, type AlarmLinkAnswer, answerLink } from '../../notify/acknowledge-by-link.ts';
import { escaped } from '../../notify/channels/mail-body.ts';
import { alarmLinkPath, earlierAlarmLinkPath } from '../../notify/notification-links.ts';
import type { Api } from '../api.ts';
import { fileAnswer } from '../file-answer.ts';

const linkParams = z.object({ secret: z.string().min(1).max(100) });
/** What a link of an earlier version answers. */
const moved = { 308: z.null().describe('To the page of today.') };
const statuses: Record<AlarmLinkAnswer['state'], number> = {
  ready: 200,
  done: 200,
  'nothing-left': 200,
  used: 410,
  'too-old': 410,
  unknown: 404,
};

export async function registerAlarmLinks(api: Api, parts: AcknowledgeByLinkParts): Promise<void> {
  const response = fileAnswer(
    'A page with what the message said and one button; JSON where that is asked for.',
    'text/html',
  );
  const options = {
    config: { access: 'open', ownSecret: true, does: 'audit.did.acknowledged-by-link-in-message' } as const,
    schema: { params: linkParams, response },
  };

  await api.register(async (own: Api) => {
    // The button of a plain page sends a form; nothing in it is read.
    own.addContentTypeParser('application/x-www-form-urlencoded', { parseAs: 'string' }, (_request, _body, done) =>
      done(null, undefined),
    );
    own.get(`${alarmLinkPath}:secret`, options, async (request, reply) =>
      send(reply, await answerLink(parts, request.params.secret, false), false),
    );
    own.get(
      `${earlierAlarmLinkPath}:secret`,
      { ...options, schema: { params: linkParams, response: moved } },
      async (request, reply) => reply.redirect(`${alarmLinkPath}${encodeURIComponent(request.params.secret)}`, 308),
    );
    for (const path of [alarmLinkPath, earlierAlarmLinkPath]) {
      // The step of the alarm says who acknowledged, and by which message.
      own.post(
        `${path}:secret`,
        { ...options, config: { ...options.config, does: false as const } },
        async (request, reply) => {
          const answer = await answerLink(parts, request.params.secret, true);
          return send(reply, answer, request.headers.accept?.includes('application/json') === true);
        },
      );
    }
  });
}

function send(reply: FastifyReply, answer: AlarmLinkAnswer, asJson: boolean) {
  reply.code(statuses[answer.state]).header('Cache-Control', 'no-store');
  if (asJson) return reply.type('application/json; charset=utf-8').serializer(JSON.stringify).send(answer);
  return reply.type('text/html; charset=utf-8').serializer(String).send(pageOf(answer));
}

/** A number stays on one line with its unit; plain messages have plain spaces. */
const withUnits = (text: string) => escaped(text).replaceAll(/(\d) (?=[°%])/g, '$1&nbsp;');

function pageOf({ state, heading, message: sentence, sentAt, parts, says, pileId, language }: AlarmLinkAnswer): string {
  const say = (said: Message) => escaped(plainSpaces(render(said, { ...plainReader(0), language })));
  const button =
    state === 'ready' ? `<form method="post"><button type="submit">${say(message('link.button'))}</button></form>` : '';
  const pile =
    pileId === null
      ? `<p><a href="/">${say(message('link.see-piles'))}</a></p>`
      : `<p><a href="/piles/${encodeURIComponent(pileId)}">${say(message('link.see-pile'))}</a></p>`;
  const cautions = parts.map(({ label, text }) => `<p class="part"><b>${escaped(label)}</b> ${withUnits(text)}</p>`);
  const card =
    sentence === null
      ? ''
      : `<div class="message"><p class="when">${escaped(sentAt ?? '')}</p><p class="sentence">${withUnits(sentence)}</p></div>`;
  const title = `${escaped(heading)}: Branhearth`;
  return `<!doctype html><html lang="${escaped(language)}"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><meta name="robots" content="noindex"><title>${title}</title><style>${style}</style></head><body><main><p class="name">Branhearth</p><h1>${escaped(heading)}</h1>${card}<p>${escaped(says)}</p>${button}${cautions.join('')}${pile}</main></body></html>`;
}

/** Tones of web/src/ui/style/tokens.css; this page stands alone, so that it opens at once on any phone. */
const style = `
:root{color-scheme:light dark;--paper:#f5f8f5;--card:#fcfdfc;--ink:#14201a;--quiet:#3f4d45;--accent:#0b5560;--on-accent:#f5fbfb}
@media(prefers-color-scheme:dark){:root{--paper:#0d1411;--card:#151e1a;--ink:#e6efe9;--quiet:#b3c2b9;--accent:#82d3dc;--on-accent:#052024}}
body{margin:0;background:var(--paper);color:var(--ink);font:1.0625rem/1.55 system-ui,-apple-system,'Segoe UI',Roboto,'Noto Sans',sans-serif}
main{max-width:34rem;margin:0 auto;padding:1.5rem 1.125rem}
.name{margin:0;color:var(--accent);font-weight:bold}
h1{font-size:1.6rem;line-height:1.2;margin:.5rem 0 1rem}
.message{background:var(--card);border-left:.4rem solid var(--accent);padding:.9rem 1rem}
.message p{margin:0}
.when{color:var(--quiet);font-size:1rem}
.message .sentence{font-size:1.25rem}
.part{margin:1rem 0 0;font-size:1rem}
button{width:100%;min-height:3.5rem;border:0;border-radius:.4rem;background:var(--accent);color:var(--on-accent);font:inherit;font-weight:bold;cursor:pointer}
button:focus-visible,a:focus-visible{outline:.2rem solid var(--ink);outline-offset:.2rem}
a{color:var(--accent);display:inline-block;padding:.6rem 0}`;
