/** Whether the first message of a probe came, what was wrong with it, and why none comes: as the server saw it. */
import type { FirstMessageAnswer } from '../../../../shared/contracts/first-message.ts';
import { useInstallation, useServerNow } from '../../data/live/use-installation.ts';
import { useSay } from '../../data/live/use-say.ts';
import { renderRefusal } from '../incoming/refusal-words.ts';
import { useIncomingWords } from '../incoming/use-incoming-words.ts';
import { useFirstWords } from './use-first-words.ts';
import './first-message.css';

const mono = (inner: preact.ComponentChildren) => <code>{inner}</code>;

export function FirstMessage({ answer }: { readonly answer: FirstMessageAnswer }) {
  const { text, rich } = useFirstWords();
  const { first, refused, unused, turnedAway } = answer;
  const isTalking = useInstallation(({ probeCounts }) => probeCounts.all > 0);
  const isNothing = first === null && refused === null && turnedAway.length === 0;
  return (
    <div class="first-message" role="status">
      {isNothing && <p class="quiet">{text('page-first.waiting')}</p>}
      {first !== null && (
        <p>{rich('page-first.came', { cameAtMs: Date.parse(first.at), topicText: first.topic, mono })}</p>
      )}
      {refused !== null && <Unread refused={refused} />}
      {/* What else a device says beside its readings is nobody's concern. */}
      {!isTalking && unused.map(({ topic }) => <Unused key={topic} topic={topic} />)}
      <TurnedAway turnedAway={turnedAway} />
      {answer.authPolicy === 'outside' && <p class="quiet">{text('page-first.outside')}</p>}
    </div>
  );
}

function Unread({ refused: { last } }: { readonly refused: NonNullable<FirstMessageAnswer['refused']> }) {
  const { rich } = useFirstWords();
  const say = useSay(renderRefusal);
  const nowMs = useServerNow();
  return (
    <>
      <p>
        {rich('page-first.unread', {
          topicText: last.topic,
          mono,
          lastAgoMs: nowMs - Date.parse(last.at),
          whyText: say(last.messages.message),
        })}
      </p>
      {last.payload !== '' && <pre>{last.payload}</pre>}
    </>
  );
}

function Unused({ topic }: { readonly topic: string }) {
  const { rich } = useFirstWords();
  const link = (inner: preact.ComponentChildren) => <a href="/incoming">{inner}</a>;
  return <p>{rich('page-first.unused', { topicText: topic, mono, link })}</p>;
}

function TurnedAway({ turnedAway }: Pick<FirstMessageAnswer, 'turnedAway'>) {
  const { rich } = useFirstWords();
  const incoming = useIncomingWords();
  const nowMs = useServerNow();
  return (
    <>
      {turnedAway.map(({ reason, address, clientId, lastAt }) => (
        <p key={`${reason} ${address} ${clientId}`}>
          {rich('page-first.turned-away', {
            whatText: incoming.text(`page-incoming.connection.${reason}`),
            b: (inner) => <b>{inner}</b>,
            addressText: address,
            lastAgoMs: nowMs - Date.parse(lastAt),
            meaningText: incoming.text(`page-incoming.connection.${reason}.meaning`),
          })}
        </p>
      ))}
    </>
  );
}
