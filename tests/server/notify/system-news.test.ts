import pino from 'pino';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { SystemNotices } from '../../../server/health/system-notices.ts';
import { Heartbeat } from '../../../server/notify/heartbeat.ts';
import { SystemNews } from '../../../server/notify/system-news.ts';
import { type Message, message, verbatim } from '../../../shared/messages/message.ts';
import type { NoticeRecord } from '../../../shared/store/notifications-store.ts';
import { makeCertificate, type Receiver, startReceiver } from '../../helpers/https-server.ts';
import { until } from '../../helpers/until.ts';

describe('trouble of the server', () => {
  let notified: NoticeRecord[];
  let isFull: boolean;
  let broker: string;
  let isOurs: boolean;
  let notices: SystemNotices;
  let news: SystemNews;
  beforeEach(() => {
    notified = [];
    isFull = false;
    broker = 'ok';
    isOurs = true;
    notices = new SystemNotices();
    news = new SystemNews({
      notices,
      clock: { nowMs: () => 1_000, speed: 1 },
      log: pino({ level: 'silent' }),
      newId: () => `id-${notified.length}`,
      async notify(owed) {
        if (isFull) throw new Error('the disk is full');
        notified.push(...owed);
      },
      brokerHealth: () => ({ state: broker, detail: 'Not connected' }),
      isOurs: () => isOurs,
    });
  });
  const answers = async () => {
    await new Promise((resolve) => setImmediate(resolve));
    return notified.map(({ key }) =>
      key
        .split('/')
        .filter((part) => part !== '1000')
        .join(' '),
    );
  };
  const disk = (severity: 'warning' | 'critical') =>
    notices.raise({
      kind: 'disk',
      severity,
      sinceMs: 1_000,
      seen: verbatim('The disk is nearly full.'),
      todo: verbatim('Make room.'),
    });

  test('is told when it begins, when it gets worse, and when it is over; not for every change of words', async () => {
    disk('warning');
    disk('warning');
    disk('critical');
    notices.clear('disk');
    expect(await answers()).toEqual(['server disk first-raise', 'server disk got-worse', 'server disk cleared']);
  });

  test('that the journal could not take is told once it can', async () => {
    isFull = true;
    disk('critical');
    expect(await answers()).toEqual([]);
    isFull = false;
    news.check();
    expect(await answers()).toEqual(['server disk first-raise']);
  });

  test('a broker away for three minutes is told, a shorter absence is not', async () => {
    broker = 'down';
    news.check(0);
    news.check(179_999);
    expect(await answers()).toEqual([]);
    news.check(180_000);
    news.check(400_000);
    expect(await answers()).toEqual(['server broker first-raise']);
    broker = 'ok';
    news.check(500_000);
    expect(await answers()).toEqual(['server broker first-raise', 'server broker cleared']);
  });

  test('where another process tells of the broker it is told by that one, also when it takes over from this one', async () => {
    broker = 'down';
    isOurs = false;
    news.check(0);
    news.check(180_000);
    expect(await answers()).toEqual([]);
    isOurs = true;
    news.check(200_000);
    news.check(379_999);
    expect(await answers()).toEqual([]);
    news.check(380_000);
    expect(await answers()).toEqual(['server broker first-raise']);
    isOurs = false;
    news.check(400_000);
    broker = 'ok';
    news.check(420_000);
    expect(await answers()).toEqual(['server broker first-raise']);
    expect(notices.standing()).toEqual([]);
  });
});

describe('the heartbeat', () => {
  const certificate = makeCertificate('127.0.0.1');
  let receiver: Receiver;
  beforeAll(async () => {
    receiver = await startReceiver(certificate);
    receiver.answer = (_got, response) => void response.writeHead(200).end();
  });
  afterAll(() => receiver.close());
  beforeEach(() => {
    receiver.got.length = 0;
  });
  const beat = (unwell: Message | undefined, trusted = true) => {
    const heart = new Heartbeat({
      url: async () => ({ url: `https://127.0.0.1:${receiver.port}/alive`, trusted }),
      allowed: async () => [],
      unwell: async () => unwell,
      guard: { trust: certificate.cert },
    });
    heart.start(0);
    return heart;
  };
  const settles = async (heart: Heartbeat, state: string) => {
    await until(state, () => (heart.state.state === state ? true : undefined));
    heart.close();
  };

  test('is given while all is well', async () => {
    await settles(beat(undefined), 'ok');
    expect(receiver.got.map(({ method, path }) => `${method} ${path}`)).toEqual(['GET /alive']);
  });
  test('is held while something is unwell: its silence is the message', async () => {
    const heart = beat(message('health.unwell.readings', { problemText: 'disk full' }));
    await settles(heart, 'held');
    expect([receiver.got.length, heart.state.detail]).toEqual([
      0,
      'not called, as the readings cannot be written: disk full',
    ]);
  });
  test('set on the page it reaches no inner address', async () => {
    await settles(beat(undefined, false), 'failing');
    expect(receiver.got).toEqual([]);
  });
});
