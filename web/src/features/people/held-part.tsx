/**
 * What a person is signed in with, for an owner to see and end: as when their phone is lost.
 */
import { useState } from 'preact/hooks';
import type { HeldDevice, Member } from '../../../../shared/contracts/people.ts';
import { reasonOf } from '../../data/client.ts';
import { useReader } from '../../data/live/use-installation.ts';
import { useQuery } from '../../data/use-query.ts';
import { dayAndTime } from '../../ui/format/local-time.ts';
import { deviceWords, scopeNames } from '../../ui/format/role-words.ts';
import { SureButton } from '../../ui/parts/sure-button.tsx';
import { endHeld, endHeldOne, getHeld } from './people-api.ts';
import './people.css';

interface HeldProps {
  readonly person: Member;
  readonly refresh: () => Promise<void>;
}

/** Fetched only once somebody looks. */
export function HeldPart(props: HeldProps) {
  const [open, setOpen] = useState(false);
  return (
    <details class="more held" open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>
        Sign-ins, tokens and devices<span class="unseen"> of {props.person.name}</span>
      </summary>
      {open && <HeldLists {...props} />}
    </details>
  );
}

function HeldLists({ person, refresh }: HeldProps) {
  const { value, error, refresh: again } = useQuery(`held/${person.id}`, () => getHeld(person.id));
  const reader = useReader();
  const when = (instant: string) => dayAndTime(Date.parse(instant), reader);
  const after = () => Promise.all([again(), refresh()]);
  if (!value) return error === undefined ? <p class="quiet">Fetching…</p> : <p class="refusal">{reasonOf(error)}</p>;
  const { sessions, tokens, devices } = value;
  const lines = [
    ...sessions.map((one) => ({
      kind: 'sessions' as const,
      id: one.id,
      title: `Signed in: ${deviceWords(one.agent)}${one.isThis ? ' (this one)' : ''}`,
      says: `From ${one.address}, since ${when(one.since)}, last used ${when(one.seenAt)}.`,
    })),
    ...devices.map((one) => ({
      kind: 'devices' as const,
      id: one.id,
      title: `Gets push messages: ${one.label}`,
      says: `Since ${when(one.addedAt)}, ${one.lastOkAt === null ? 'none sent yet' : `the last one ${when(one.lastOkAt)}`}. ${byWords[one.by]}`,
    })),
    ...tokens.map((one) => ({
      kind: 'tokens' as const,
      id: one.id,
      title: `Token: ${one.name}`,
      says: `It ${scopeNames[one.scope]}. Made ${when(one.madeAt)}, ${one.usedAt === null ? 'never used' : `last used ${when(one.usedAt)}`}.`,
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
              words="End"
              of={line.title}
              asks={endAsks[line.kind]}
              sure="End it"
              act={() => endHeldOne(person.id, line.kind, line.id).then(after)}
            />
          </li>
        ))}
      </ul>
      {lines.length === 0 && <p class="quiet">Not signed in anywhere, and nothing is sent to any device.</p>}
      <SureButton
        words="Phone lost or stolen: end all"
        of={`that ${person.name} holds`}
        asks={`End all that ${person.name} holds? Every sign-in, token and push device, the invitations they made, and their calendar address. They sign in again with their password; if somebody may know that, make them a new one too.`}
        sure="End all"
        act={() => endHeld(person.id).then(after)}
      />
    </>
  );
}

const byWords: Record<HeldDevice['by'], string> = {
  session: 'It ends with its sign-in.',
  token: 'A program signed it up, with a token; it ends with that.',
  over: 'Its sign-in has run out by itself; warnings still reach it.',
  unknown: 'Not known by which sign-in it was set up.',
};

const endAsks = {
  sessions: 'Sign out there? Push messages to that device end too.',
  devices: 'Send it no more messages? A sign-in there goes on.',
  tokens: 'Revoke it? Programs that use it are refused from then on.',
} as const;
