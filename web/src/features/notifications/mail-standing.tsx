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
import './notifications.css';

interface MailStandingProps {
  readonly mail: MailAnswer;
  /** As it is kept. */
  readonly address: string;
  readonly refresh: () => Promise<void>;
}

export function MailStanding({ mail, address, refresh }: MailStandingProps) {
  const { standing } = mail;
  if (standing === 'none') return null;
  if (standing === 'confirmed') return <p class="quiet">Confirmed: warnings go to {address}.</p>;
  if (standing === 'set-by-server') {
    return <p class="quiet">Set where the program runs, so it needs no confirmation: warnings go to {address}.</p>;
  }
  return (
    <section class="mail-standing" aria-label="Confirmation">
      <h4>{standing === 'before' ? 'Not confirmed yet' : 'Waiting for confirmation'}</h4>
      <p>{goesWords(mail, address)}</p>
      <EnterCode mail={mail} address={address} refresh={refresh} />
    </section>
  );
}

function goesWords({ standing, goesTo }: MailAnswer, address: string): string {
  if (standing === 'before') {
    return `Warnings go to ${address}, as they did. Confirm that it is yours, so that tests can be sent to it too.`;
  }
  const meanwhile =
    goesTo === null
      ? 'Until it is confirmed, no warning goes there.'
      : `Until it is confirmed, warnings go on to ${goesTo}.`;
  return `${address} is not confirmed yet. ${meanwhile}`;
}

/** Sending a code to the address, and entering it. */
function useCode({ refresh }: MailStandingProps) {
  const [code, setCode] = useState('');
  const [outcome, setOutcome] = useState<string>();
  const sending = useMutation();
  const entering = useMutation();
  const send = () =>
    sending.run(async () => {
      entering.clear();
      setOutcome('On its way…');
      const { id } = await sendMailCode().catch((error) => {
        setOutcome(undefined);
        throw error;
      });
      await refresh();
      setOutcome(await followOutcome(id, 'The mail server has taken it. Look in your mailbox, and among the junk.'));
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
            A code was sent to {address} on {when(mail.sentAt ?? '')}. Enter it here, until{' '}
            {when(mail.codeEndsAt ?? '')}.
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
            Confirm
          </button>
        )}
        <button type="button" disabled={sending.busy} onClick={() => void send()}>
          {isSent ? 'Send a new code' : 'Send a code to this address'}
        </button>
      </div>
      <p role="status" class="quiet">
        {outcome}
      </p>
      {isSent && (
        <p class="hint">
          Nothing came? Look among the junk, and whether the address above is right; a slow mail server may take some
          minutes. Only the newest code counts.
        </p>
      )}
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
  return (
    <Field label="Code of the e-mail" error={error}>
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
