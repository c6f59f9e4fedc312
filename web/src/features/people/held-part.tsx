/**
 * What a person is signed in with, for an owner to see and end: as when their phone is lost.
 */
import { useState } from 'preact/hooks';
import type { Member } from '../../../../shared/contracts/people.ts';
import { reasonOf } from '../../data/client.ts';
import { useReader } from '../../data/live/use-installation.ts';
import { useQuery } from '../../data/use-query.ts';
import { dayAndTime } from '../../ui/format/local-time.ts';
import { SureButton } from '../../ui/parts/sure-button.tsx';
import { deviceWords } from './device-words.ts';
import { endHeld, endHeldOne, getHeld } from './people-api.ts';
import './people.css';
import { usePeopleWords } from './use-people-words.ts';

interface HeldProps {
  readonly person: Member;
  readonly refresh: () => Promise<void>;
}

/** Fetched only once somebody looks. */
export function HeldPart(props: HeldProps) {
  const { rich } = usePeopleWords();
  const [open, setOpen] = useState(false);
  return (
    <details class="more held" open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>
        {rich('page-people.held', {
          personName: props.person.name,
          aloud: (inner) => <span class="unseen">{inner}</span>,
        })}
      </summary>
      {open && <HeldLists {...props} />}
    </details>
  );
}

function HeldLists({ person, refresh }: HeldProps) {
  const words = usePeopleWords();
  const { text } = words;
  const { value, error, refresh: again } = useQuery(`held/${person.id}`, () => getHeld(person.id));
  const reader = useReader();
  const when = (instant: string) => dayAndTime(Date.parse(instant), reader);
  const after = () => Promise.all([again(), refresh()]);
  if (!value)
    return error === undefined ? (
      <p class="quiet">{text('page-people.fetching')}</p>
    ) : (
      <p class="refusal">{reasonOf(error)}</p>
    );
  const { sessions, tokens, devices } = value;
  const lines = [
    ...sessions.map((one) => ({
      kind: 'sessions' as const,
      id: one.id,
      title: text('page-people.held.session', { deviceText: deviceWords(one.agent, words), isThis: one.isThis }),
      says: text('page-people.held.session.says', {
        addressText: one.address,
        sinceText: when(one.since),
        usedText: when(one.seenAt),
      }),
    })),
    ...devices.map((one) => ({
      kind: 'devices' as const,
      id: one.id,
      title: text('page-people.held.device', { deviceName: one.label }),
      says: text('page-people.held.device.says', {
        sinceText: when(one.addedAt),
        isUsed: one.lastOkAt !== null,
        usedText: one.lastOkAt === null ? '' : when(one.lastOkAt),
        by: one.by === 'unknown' ? 'other' : one.by,
      }),
    })),
    ...tokens.map((one) => ({
      kind: 'tokens' as const,
      id: one.id,
      title: text('page-people.held.token', { tokenName: one.name }),
      says: text('page-people.held.token.says', {
        scope: one.scope === 'own' ? 'other' : one.scope,
        madeText: when(one.madeAt),
        isUsed: one.usedAt !== null,
        usedText: one.usedAt === null ? '' : when(one.usedAt),
      }),
    })),
  ];
  return (
    <>
      <ul class="people-list">
        {lines.map((line) => (
          <li key={line.id}>
            <div>
              <h4>{line.title}</h4>
              <p class="quiet">{line.says}</p>
            </div>
            <SureButton
              words={text('page-people.held.end')}
              of={line.title}
              asks={text(`page-people.held.end.${line.kind}`)}
              sure={text('page-people.held.end.yes')}
              act={() => endHeldOne(person.id, line.kind, line.id).then(after)}
            />
          </li>
        ))}
      </ul>
      {lines.length === 0 && <p class="quiet">{text('page-people.held.none')}</p>}
      <SureButton
        words={text('page-people.held.all')}
        of={text('page-people.held.all.of', { personName: person.name })}
        asks={text('page-people.held.all.asked', { personName: person.name })}
        sure={text('page-people.held.all.yes')}
        act={() => endHeld(person.id).then(after)}
      />
    </>
  );
}
