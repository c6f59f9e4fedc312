/** "send me a test", and what became of it. */
import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import type { MessageView } from '../../../../shared/contracts/notifications.ts';
import type { NotificationChannel } from '../../../../shared/notifications.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { Refusal } from '../../ui/parts/forms.tsx';
import { getNotice, sendTest } from './notifications-api.ts';
import { type NotificationWords, useNotificationWords } from './use-notification-words.ts';
import './notifications.css';

const askEveryMs = 500;
const patienceMs = 25_000;

interface TestButtonProps {
  readonly channel: NotificationChannel;
  readonly label: ComponentChildren;
}

export function TestButton({ channel, label }: TestButtonProps) {
  const words = useNotificationWords();
  const { text } = words;
  const [outcome, setOutcome] = useState<string>();
  const mutation = useMutation();
  const test = () =>
    mutation.run(async () => {
      setOutcome(text('page-notifications.test.sending'));
      const { id } = await sendTest(channel).catch((error) => {
        setOutcome(undefined);
        throw error;
      });
      setOutcome(await followOutcome(id, text('page-notifications.test.sent'), words));
    });
  return (
    <div class="test">
      <button type="button" disabled={mutation.busy} onClick={() => void test()}>
        {label}
      </button>
      <p role="status" class="quiet">
        {outcome}
      </p>
      <Refusal error={mutation.error} />
    </div>
  );
}

/** Waits for what becomes of a message that was asked for by hand. @param sent What is said once it has gone out. */
export async function followOutcome(id: string, sent: string, words: Pick<NotificationWords, 'text'>): Promise<string> {
  return wordsOf(await follow(id), sent, words);
}

async function follow(id: string): Promise<readonly MessageView[]> {
  const endMs = performance.now() + patienceMs;
  for (;;) {
    const { messages, state } = await getNotice(id);
    const isTried = messages.every((message) => message.attempts.length > 0);
    if ((state === 'fanned-out' && isTried) || performance.now() > endMs) return messages;
    await new Promise((resolve) => setTimeout(resolve, askEveryMs));
  }
}

function wordsOf(messages: readonly MessageView[], sent: string, { text }: Pick<NotificationWords, 'text'>): string {
  if (messages.length === 0) return text('page-notifications.test.nobody');
  const failed = messages.filter(({ state }) => state !== 'sent');
  if (failed.length === 0) return sent;
  const reasons = failed.map((message) => message.attempts.at(-1)?.detail ?? text('page-notifications.test.no-answer'));
  return text('page-notifications.test.failed', { reasonsText: reasons.join('; ') });
}
