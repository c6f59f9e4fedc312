/**
 * server/routes/live.ts: GET /api/live, the stream of changes (server-sent events, WHATWG HTML section 9.2).
 *
 * Never:  buffers for a page that reads too slowly; its line is cut and the page comes back by itself.
 */
import { toInstant } from '../../shared/api/time.ts';
import type { Clock } from '../../shared/clock.ts';
import type { Api } from '../http/api.ts';
import { fileAnswer } from '../http/file-answer.ts';
import { eventText, type LiveHub } from '../live/live-hub.ts';

const beatMs = 15_000;
const mostBufferedBytes = 4_000_000;

export function registerLive(api: Api, hub: LiveHub, clock: Clock): void {
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
    request.raw.on('close', () => {
      clearInterval(beat);
      leave();
    });
  });
}
