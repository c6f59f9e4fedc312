/**
 * Whether the e-mail address is confirmed, and the way there: a code that was sent to it, entered here.
 */
import { useState } from 'preact/hooks';
import type { MailAnswer } from '../../../../shared/contracts/notifications.ts';
import { useReader } from '../../data/live/use-installation.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { dayAndTime } from '../../ui/format/local-time.ts';
import { Field, Refusal } from '../../ui/parts/forms.tsx';
import { confirmMail, sendMailCode } from './notifications-api.ts';
import { followOutcome } from './test-button.tsx';
import { type NotificationWords, useNotificationWords } from './use-notification-words.ts';
import './notifications.css';

interface MailStandingProps {
  readonly mail: MailAnswer;
  /** As it is kept. */
  readonly address: string;
  readonly refresh: () => Promise<void>;
}

export function MailStanding({ mail, address, refresh }: MailStandingProps) {
  const words = useNotificationWords();
  const { text } = words;
  const { standing } = mail;
  if (standing === 'none') return null;
  if (standing === 'confirmed' || standing === 'set-by-server') {
    return <p class="quiet">{text(`page-notifications.mail.${standing}`, { addressText: address })}</p>;
  }
  return (
    <section class="mail-standing" aria-label={text('page-notifications.mail.confirmation')}>
      <h4>{text(standing === 'before' ? 'page-notifications.mail.before' : 'page-notifications.mail.waiting')}</h4>
      <p>{goesWords(mail, address, words)}</p>
      <EnterCode mail={mail} address={address} refresh={refresh} />
    </section>
  );
}

function goesWords(
  { standing, goesTo }: MailAnswer,
  address: string,
  { text }: Pick<NotificationWords, 'text'>,
): string {
  if (standing === 'before') return text('page-notifications.mail.before.goes', { addressText: address });
  return goesTo === null
    ? text('page-notifications.mail.waiting.none', { addressText: address })
    : text('page-notifications.mail.waiting.goes', { addressText: address, beforeText: goesTo });
}

/** Sending a code to the address, and entering it. */
function useCode({ refresh }: MailStandingProps) {
  const words = useNotificationWords();
  const { text } = words;
  const [code, setCode] = useState('');
  const [outcome, setOutcome] = useState<string>();
  const sending = useMutation();
  const entering = useMutation();
  const send = () =>
    sending.run(async () => {
      entering.clear();
      setOutcome(text('page-notifications.test.sending'));
      const { id } = await sendMailCode().catch((error) => {
        setOutcome(undefined);
        throw error;
      });
      await refresh();
      setOutcome(await followOutcome(id, text('page-notifications.mail.sent'), words));
    });
  const enter = () =>
    entering.run(async () => {
      await confirmMail(code);
      setCode('');
      await refresh();
    });
  return { code, setCode, outcome, send, enter, sending, entering };
}

function EnterCode(props: MailStandingProps) {
  const { text } = useNotificationWords();
  const { mail, address } = props;
  const { code, setCode, outcome, send, enter, sending, entering } = useCode(props);
  const reader = useReader();
  const when = (instant: string) => dayAndTime(Date.parse(instant), reader);
  const isSent = mail.sentAt !== null && mail.codeEndsAt !== null;
  return (
    <>
      {isSent && (
        <>
          <p>
            {text('page-notifications.mail.code-sent', {
              addressText: address,
              sentText: when(mail.sentAt ?? ''),
              endsText: when(mail.codeEndsAt ?? ''),
            })}
          </p>
          <CodeField value={code} onValue={setCode} onEnter={enter} error={entering.fieldError('/code')} />
        </>
      )}
      <div class="mail-actions">
        {isSent && (
          <button
            type="button"
            class="primary"
            disabled={entering.busy || code.trim() === ''}
            onClick={() => void enter()}
          >
            {text('page-notifications.mail.confirm')}
          </button>
        )}
        <button type="button" disabled={sending.busy} onClick={() => void send()}>
          {text(isSent ? 'page-notifications.mail.send-again' : 'page-notifications.mail.send')}
        </button>
      </div>
      <p role="status" class="quiet">
        {outcome}
      </p>
      {isSent && <p class="hint">{text('page-notifications.mail.nothing-came')}</p>}
      {entering.fieldError('/code') === undefined && <Refusal error={entering.error} />}
      <Refusal error={sending.error} />
    </>
  );
}

interface CodeFieldProps {
  readonly value: string;
  readonly onValue: (value: string) => void;
  readonly onEnter: () => Promise<unknown>;
  readonly error: string | undefined;
}

function CodeField({ value, onValue, onEnter, error }: CodeFieldProps) {
  const { text } = useNotificationWords();
  return (
    <Field label={text('page-notifications.mail.code')} error={error}>
      {(ids) => (
        <input
          {...ids}
          class="mono"
          type="text"
          inputMode="numeric"
          autocomplete="one-time-code"
          value={value}
          placeholder="1234 5678"
          onInput={(event) => onValue(event.currentTarget.value)}
          onKeyDown={(event) => {
            // It stands within the form of the preferences, which Enter would keep.
            if (event.key !== 'Enter') return;
            event.preventDefault();
            void onEnter();
          }}
        />
      )}
    </Field>
  );
}
