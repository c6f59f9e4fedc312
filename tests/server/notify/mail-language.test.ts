/** What frames a message is in the language of whoever reads it: here a made-up one, whose every text stands in brackets. */
import { expect, test, vi } from 'vitest';
import { mailHtml, mailText } from '../../../server/notify/channels/mail-body.ts';
import { message, notice } from '../../shared/store/journal-notifications-contract.ts';

vi.mock('../../../shared/messages/made/languages.ts', () => ({ languages: ['en', 'de'] }));
vi.mock('../../../shared/messages/catalogues.ts', async (original) => {
  const { readTexts: read } = await original<typeof import('../../../shared/messages/catalogues.ts')>();
  const bracketed = () => Object.fromEntries(Object.entries(read('en')).map(([code, text]) => [code, `⟦${text}⟧`]));
  return { readTexts: (language: string) => (language === 'de' ? bracketed() : read(language)) };
});

const jobIn = (language: string) => ({
  message,
  notice,
  content: { title: 'T', sentence: 'S', parts: [] },
  reader: { timeZone: 'UTC', unit: 'C' as const, language },
  pageUrl: 'https://farm.example/piles/1',
  ack: { url: 'https://farm.example/a/1', secret: '1' },
});

test('a mail says in English what to press and that probes are no fire protection', () => {
  expect(mailText(jobIn('en'))).toBe(
    [
      'S\n\nI have seen this (opens a page with one button):\nhttps://farm.example/a/1\n',
      'Look at it:\nhttps://farm.example/piles/1\n',
      '--\nSensors alone never say that a pile is ready or safe. These messages are no fire protection.\n',
    ].join('\n'),
  );
  expect(mailHtml(jobIn('en'), 'danger')).toContain('<html lang="en">');
});

test('a mail has no sentence of ours that is not in its reader’s language', () => {
  const words = (text: string) => text.replace(/⟦[^⟧]*⟧/g, '').match(/\p{L}{3,}/gu) ?? [];
  expect(words(mailText(jobIn('de')).replaceAll(/https:\S+/g, ''))).toEqual([]);
  const html = mailHtml(jobIn('de'), 'danger');
  expect(html).toContain('<html lang="de">');
  expect(words(html.replace(/<[^>]*>/g, ' '))).toEqual([]);
});
