import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { Job } from '../../../server/notify/channels/channel.ts';
import { openEmail } from '../../../server/notify/channels/email.ts';
import { verbatim } from '../../../shared/messages/message.ts';
import { type MailServer, startMailServer, startSilentServer } from '../../helpers/mail-server.ts';
import { message, notice } from '../../shared/store/journal-notifications-contract.ts';

const content = { title: 'Shed: too hot', sentence: 'Shed at Saltmere Yard is too hot.', parts: [] };
const job = (change: Partial<Job> = {}): Job => ({
  message,
  notice,
  content,
  reader: { timeZone: 'UTC', unit: 'C', language: 'en' },
  pageUrl: undefined,
  ack: undefined,
  ...change,
});
let box: MailServer;
beforeEach(async () => {
  box = await startMailServer();
});
afterEach(() => box.close());
const channel = (smtpUrl = box.url) => openEmail({ smtpUrl, from: 'Farm <alarms@saltmere.example>', timeoutMs: 1_500 });

describe('a mail server', () => {
  test('that takes a letter: sent, with what it said', async () => {
    expect(await channel().send(job())).toMatchObject({
      outcome: 'sent',
      detail: { code: 'verbatim', params: { text: expect.stringMatching(/^250/) } },
    });
  });
  test('that knows no such mailbox (550): refused for good', async () => {
    box.mood = 'refuse';
    expect(await channel().send(job())).toEqual({ outcome: 'refused', detail: verbatim('550 no such mailbox here') });
  });
  test('that puts off strangers (451): failed, to be tried again', async () => {
    box.mood = 'greylist';
    expect(await channel().send(job())).toEqual({
      outcome: 'failed',
      detail: verbatim('451 greylisted, come back later'),
    });
    box.mood = 'kind';
    expect((await channel().send(job())).outcome).toBe('sent');
  });
  test('that says nothing after the letter: failed, in bounded time', async () => {
    box.mood = 'hang';
    expect((await channel().send(job())).outcome).toBe('failed');
  });
  test('that ends the line in the middle: failed', async () => {
    box.mood = 'drop';
    expect((await channel().send(job())).outcome).toBe('failed');
    expect(box.mails).toEqual([]);
  });
  test('that takes the connection and never greets: failed, in bounded time', async () => {
    const silent = await startSilentServer();
    expect((await channel(silent.url).send(job())).outcome).toBe('failed');
    await silent.close();
  });
  test('that is not there: failed', async () => {
    expect(await channel('smtp://127.0.0.1:1').send(job())).toMatchObject({
      outcome: 'failed',
      detail: { code: 'verbatim', params: { text: expect.stringMatching(/ECONNREFUSED/) } },
    });
  });
});

test('a second copy carries the same Message-ID', async () => {
  await channel().send(job());
  await channel().send(job());
  expect(new Set(box.mails.map(({ parsed }) => parsed.messageId))).toEqual(
    new Set([`<${message.id}@saltmere.example>`]),
  );
});

describe('whatever a name holds', () => {
  const sly = [
    'Shed\r\nBcc: all@saltmere.example',
    'Shed\nSubject: another',
    'Shed\r\n\r\n<script>alert(1)</script>',
    'Shed\u2028X-Evil: yes',
    '=?utf-8?q?Shed=0d=0aBcc:_all@saltmere.example?=',
    'Shed\u0000\u0007',
  ];
  for (const name of sly) {
    test(`${JSON.stringify(name)} starts no header, adds no reader and is no markup`, async () => {
      const named = {
        title: `${name}: too hot`,
        sentence: `${name} is too hot.`,
        parts: [{ label: name, text: name }],
      };
      await channel().send(job({ content: named }));
      const [mail] = box.mails;
      expect(mail?.to).toEqual([message.address]);
      const names = [...(mail?.parsed.headers.keys() ?? [])];
      for (const forbidden of ['bcc', 'cc', 'x-evil']) expect(names).not.toContain(forbidden);
      expect(mail?.parsed.headerLines.filter(({ key }) => key === 'subject')).toHaveLength(1);
      expect(mail?.parsed.html).not.toContain('<script>');
    });
  }

  test('an address that would be two is refused before anything is sent', async () => {
    for (const address of [
      'a@saltmere.example, b@saltmere.example',
      'a@saltmere.example\r\nBcc: b@saltmere.example',
      'a b',
    ])
      expect([address, (await channel().send(job({ message: { ...message, address } }))).outcome]).not.toEqual([
        address,
        'sent',
      ]);
    expect(box.mails.flatMap(({ to }) => to).filter((to) => to.startsWith('b@'))).toEqual([]);
  });
});
