/**
 * GET /api/live, the stream of changes (server-sent events, WHATWG HTML section 9.2). It never goes on after the
 * session or token by which it was opened has ended, here or in another process; or buffers for a page that reads too
 * slowly; its line is cut and the page comes back by itself.
 */
import type { Clock } from '../../../shared/clock.ts';
import { toInstant } from '../../../shared/contracts/time.ts';
import { isAllowed } from '../../../shared/person.ts';
import { eventText, type LiveHub } from '../../services/live/live-hub.ts';
import type { People } from '../../services/people/open-people.ts';
import type { Api } from '../api.ts';
import { fileAnswer } from '../file-answer.ts';

const beatMs = 15_000;
/** Within so long it is noticed that another process ended the session. */
const lookMs = 4_000;
const mostBufferedBytes = 4_000_000;

interface LiveParts {
  readonly hub: LiveHub;
  readonly clock: Clock;
  readonly people: People;
}

export function registerLive(api: Api, { hub, clock, people }: LiveParts): void {
  const response = fileAnswer('Changes as they happen, as server-sent events.', 'text/event-stream');
  api.get('/api/live', { config: { access: 'viewer' }, schema: { response } }, (request, reply) => {
    const line = reply.raw;
    reply.hijack();
    line.writeHead(200, {
      'Content-Type': 'text/event-stream; charset=utf-8',
      'Cache-Control': 'no-store',
      'X-Accel-Buffering': 'no',
    });
    line.write(`retry: 2000\n\n${eventText('hello', { now: toInstant(clock.nowMs()), speed: clock.speed })}`);

    const leave = hub.add({
      write(text) {
        if (line.writableLength > mostBufferedBytes) line.destroy();
        return line.write(text);
      },
      end: () => line.end(),
    });
    const beat = setInterval(() => line.write(eventText('beat', { now: toInstant(clock.nowMs()) })), beatMs);

    const look = () => {
      people.known.personOf(request).then(
        (person) => isAllowed(person?.role, 'viewer') || line.end(),
        (error) => request.log.error({ err: error }, 'who listens cannot be looked up'),
      );
    };
    const stopLooking = people.sessions.whenChanged(look);
    const looks = setInterval(look, lookMs);
    request.raw.on('close', () => {
      clearInterval(beat);
      clearInterval(looks);
      stopLooking();
      leave();
    });
  });
}
