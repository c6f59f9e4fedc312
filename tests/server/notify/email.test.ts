import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { type MailServer, startMailServer } from '../../helpers/mail-server.ts';
import { until } from '../../helpers/until.ts';
import { type NotifyFarm, openNotifyFarm } from './farm.ts';

let box: MailServer;
let farm: NotifyFarm;

beforeEach(async () => {
  box = await startMailServer();
  farm = await openNotifyFarm({
    SMTP_URL: box.url,
    MAIL_FROM: 'Branhearth <alarms@saltmere.example>',
    ALERT_MAIL_TO: 'ada@saltmere.example',
    PUBLIC_URL: 'https://farm.saltmere.example',
  });
});
afterEach(async () => {
  await farm.close();
  await box.close();
});

const mailWith = (words: RegExp) => async () => box.mails.find(({ parsed }) => words.test(parsed.text ?? ''));

describe('an overheating pile', () => {
  test('is told by e-mail once: the sentence first, then what was seen, the caution, a link', async () => {
    await farm.overheat();
    const mail = await until('the e-mail', mailWith(/is too hot/));
    expect(mail.to).toEqual(['ada@saltmere.example']);
    expect(mail.parsed.subject).toBe('Shed: too hot');
    const text = mail.parsed.text ?? '';
    expect(text).toMatch(
      /^Shed at Saltmere Yard is too hot\. Turn it or spread it thinner.* Do it by Fri 2 May, \d\d:\d\d\.\n/,
    );
    expect(text).toMatch(/\nSeen: The core is at 53 °C, above the 50 °C at which to act\.\n/);
    expect(text).toMatch(/\nCaution: Turning throws up mould spores/);
    expect(text).toMatch(/https:\/\/farm\.saltmere\.example\/acknowledge\/[\w-]{43}\n/);
    expect(text).toMatch(/https:\/\/farm\.saltmere\.example\/piles\/shed\n/);
    expect(mail.parsed.html).toContain('Shed at Saltmere Yard is too hot.');
    expect(mail.parsed.headers.get('auto-submitted')).toBe('auto-generated');
    await new Promise((resolve) => setTimeout(resolve, 1_500)); // more than a look at the outbox
    expect(box.mails.filter(({ parsed }) => parsed.subject === 'Shed: too hot')).toHaveLength(1);
  });
});

describe('the link of an e-mail', () => {
  const linkOf = (text: string) => /https:\/\/farm\.saltmere\.example(\/acknowledge\/\S+)/.exec(text)?.[1] ?? 'no link';
  const open = (url: string) => farm.one.app.inject({ url, headers: { host: 'farm.saltmere.example' } });
  const press = (url: string, accept = 'text/html') =>
    farm.one.app.inject({
      method: 'POST',
      url,
      headers: { host: 'farm.saltmere.example', 'content-type': 'application/x-www-form-urlencoded', accept },
      payload: '',
    });

  test('opens a page with one button, acknowledges by that button only, once, and says who did', async () => {
    const { id } = await farm.overheat();
    const link = linkOf((await until('the e-mail', mailWith(/is too hot/))).parsed.text ?? '');
    const page = await open(link);
    expect([page.statusCode, page.headers['cache-control']]).toEqual([200, 'no-store']);
    expect(page.body).toContain('Shed at Saltmere Yard is too hot.');
    expect(page.body.match(/<button/g)).toHaveLength(1);
    const stateNow = async () => (await farm.alarms()).find((alarm) => alarm.id === id)?.state;
    expect(await stateNow()).toBe('unacknowledged');

    expect((await press(link)).body).toContain('Acknowledged by the server.');
    expect(await stateNow()).toBe('acknowledged');
    const steps = (await farm.alarms()).find((alarm) => alarm.id === id)?.steps ?? [];
    expect(steps.at(-1)).toMatchObject({ arrow: 'acknowledged', by: 'the server', note: 'from the e-mail' });

    const again = await press(link, 'application/json');
    expect([again.statusCode, again.json<{ state: string }>().state]).toEqual([410, 'used']);
  });

  test('keeps only a digest of its secret, and an unknown or old one does nothing', async () => {
    await farm.overheat();
    const link = linkOf((await until('the e-mail', mailWith(/is too hot/))).parsed.text ?? '');
    expect((await press(`${link.slice(0, -1)}${link.endsWith('A') ? 'B' : 'A'}`)).statusCode).toBe(404);
    farm.nowMs += 3 * 86_400_000;
    expect((await press(link)).statusCode).toBe(410);
    expect((await farm.alarms()).some(({ state }) => state === 'acknowledged')).toBe(false);
  });
});
