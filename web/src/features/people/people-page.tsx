/** Who belongs to the server, and who is asked in. */
import { useState } from 'preact/hooks';
import type { DamagedMember, Member } from '../../../../shared/contracts/people.ts';
import { type Role, roles } from '../../../../shared/person.ts';
import { reasonOf } from '../../data/client.ts';
import { useReader } from '../../data/live/use-installation.ts';
import { useMe } from '../../data/me.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { useQuery } from '../../data/use-query.ts';
import { dayAndTime } from '../../ui/format/local-time.ts';
import { ARole, roleChoices, roleNames, roleSays } from '../../ui/format/role-words.ts';
import { Choice, PickField, Refusal } from '../../ui/parts/forms.tsx';
import { OnlyFor } from '../../ui/parts/only-for.tsx';
import { Part } from '../../ui/parts/part.tsx';
import { SureButton } from '../../ui/parts/sure-button.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { HeldPart } from './held-part.tsx';
import { MadeOnce } from './made-once.tsx';
import {
  changePerson,
  getInvitations,
  getPeople,
  invite,
  removePerson,
  resetPerson,
  takeBackInvitation,
} from './people-api.ts';
import './people.css';

export function PeoplePage() {
  return (
    <OnlyFor to="owner">
      <People />
    </OnlyFor>
  );
}

function People() {
  const heading = usePage('People');
  const me = useMe();
  const people = useQuery('people', getPeople);
  const invitations = useQuery('invitations', getInvitations);
  const count = people.value?.people.length;
  const refresh = async () => {
    await Promise.all([people.refresh(), invitations.refresh()]);
  };
  if (me?.via === 'here' && count === 0) return <FirstOwner />;
  return (
    <div class="page">
      <div class="opening">
        <h1 ref={heading} tabIndex={-1}>
          {count === undefined ? 'People' : count === 1 ? 'One person has access.' : `${count} people have access.`}
        </h1>
        <p class="lead">
          What each of them changes is written down: see <a href="/who-did-what">who did what</a>.
        </p>
        {people.error !== undefined && !people.value && <p class="refusal">{reasonOf(people.error)}</p>}
      </div>
      <Part id="members" title="Who is here">
        <ul class="people-list">
          {(people.value?.people ?? []).map((person) => (
            <MemberLine key={person.id} person={person} refresh={refresh} />
          ))}
          {people.value?.damaged.map((person) => (
            <DamagedLine key={person.id} person={person} refresh={refresh} />
          ))}
        </ul>
      </Part>
      <Part id="invite" title="Ask somebody in">
        <Invite refresh={refresh} />
        {(invitations.value?.invitations.length ?? 0) > 0 && (
          <>
            <h3 class="sub-head">Not used yet</h3>
            <ul class="people-list">
              {invitations.value?.invitations.map((open) => (
                <OpenInvitation key={open.id} open={open} refresh={refresh} />
              ))}
            </ul>
          </>
        )}
      </Part>
    </div>
  );
}

/** While this machine itself acts as owner: the way to a real one. */
function FirstOwner() {
  const heading = usePage('People');
  const mutation = useMutation();
  return (
    <div class="page narrow">
      <h1 ref={heading} tabIndex={-1}>
        Nobody is set up here yet.
      </h1>
      <p class="lead">
        Until somebody is, whoever sits at this machine may do everything, and nobody from elsewhere comes in. Once you
        are the owner, everybody signs in, on this machine too, and you can invite others.
      </p>
      <Refusal error={mutation.error} />
      <p>
        <button
          type="button"
          class="primary"
          disabled={mutation.busy}
          onClick={() =>
            void mutation.run(async () => {
              const { hash } = new URL((await invite('owner', 1)).address);
              location.assign(`/invitation${hash}`);
            })
          }
        >
          Become the owner
        </button>
      </p>
    </div>
  );
}

/** Somebody who cannot sign in any more, and can only be removed. */
function DamagedLine({ person, refresh }: { readonly person: DamagedMember; readonly refresh: () => Promise<void> }) {
  return (
    <li>
      <div>
        <h3>{person.name}</h3>
        <p class="quiet">
          What the database holds about {person.name} is damaged, so {person.name} cannot sign in. Remove {person.name}{' '}
          and invite them again: what they wrote stays.
        </p>
      </div>
      <div class="people-actions">
        <SureButton
          words="Remove"
          asks={`Remove ${person.name}? What they wrote stays, under their name.`}
          sure="Remove"
          act={() => removePerson(person.id).then(refresh)}
        />
      </div>
    </li>
  );
}

function MemberLine({ person, refresh }: { readonly person: Member; readonly refresh: () => Promise<void> }) {
  const mutation = useMutation();
  const reader = useReader();
  const me = useMe();
  const [link, setLink] = useState<string>();
  const isMe = me?.id === person.id;
  return (
    <li>
      <div>
        <h3>
          {person.name}
          {isMe && <span class="quiet"> (you)</span>}
        </h3>
        <p class="quiet">
          Here since {dayAndTime(Date.parse(person.since), reader)};{' '}
          {person.seenAt === null ? 'not signed in now' : `last seen ${dayAndTime(Date.parse(person.seenAt), reader)}`}.
        </p>
      </div>
      <div class="people-role">
        <PickField
          label={`Role of ${person.name}`}
          value={person.role}
          choices={[...roles].reverse().map((role) => [role, roleNames[role]] as const)}
          hint={`${ARole[person.role]} ${roleSays[person.role]}.`}
          onValue={(role) => void mutation.run(() => changePerson(person.id, { role })).then(refresh)}
        />
      </div>
      <div class="people-actions">
        <button
          type="button"
          disabled={mutation.busy}
          onClick={() => void mutation.run(async () => setLink((await resetPerson(person.id)).address))}
        >
          New password
        </button>
        <SureButton
          words="Remove"
          asks={`Remove ${person.name}? What they wrote stays, under their name. Their sessions, tokens and devices end, and the links they made.`}
          sure="Remove"
          act={() => removePerson(person.id).then(refresh)}
        />
      </div>
      <HeldPart person={person} refresh={refresh} />
      <Refusal error={mutation.error} />
      {link && (
        <MadeOnce
          title={`A link for ${person.name}`}
          says="With it they choose a new password, once, within 24 hours. Hand it over in a way you trust: it is shown this once."
          text={link}
          copyLabel="Copy the link"
          onDone={() => setLink(undefined)}
        />
      )}
    </li>
  );
}

const lengths = [
  ['1', 'A day'],
  ['7', 'A week'],
  ['30', 'A month'],
] as const;

function Invite({ refresh }: { readonly refresh: () => Promise<void> }) {
  const mutation = useMutation();
  const [role, setRole] = useState<Role>('keeper');
  const [days, setDays] = useState<'1' | '7' | '30'>('7');
  const [address, setAddress] = useState<string>();
  if (address) {
    return (
      <MadeOnce
        title="An invitation"
        says={`Whoever opens it first joins as ${roleNames[role].toLowerCase()}. Send it to that one person only: it is shown this once.`}
        text={address}
        copyLabel="Copy the invitation"
        onDone={() => setAddress(undefined)}
      />
    );
  }
  return (
    <form
      class="form"
      aria-label="Ask somebody in"
      onSubmit={(event) => {
        event.preventDefault();
        void mutation.run(async () => {
          setAddress((await invite(role, Number(days))).address);
          await refresh();
        });
      }}
    >
      <Choice legend="As what?" value={role} choices={roleChoices} onValue={setRole} />
      <p class="hint">
        {ARole[role]} {roleSays[role]}.
      </p>
      <Choice legend="The link may be used within" value={days} choices={lengths} onValue={setDays} />
      <Refusal error={mutation.error} />
      <button type="submit" class="primary" disabled={mutation.busy}>
        Make the link
      </button>
    </form>
  );
}

type Open = Awaited<ReturnType<typeof getInvitations>>['invitations'][number];

function OpenInvitation({ open, refresh }: { readonly open: Open; readonly refresh: () => Promise<void> }) {
  const mutation = useMutation();
  const reader = useReader();
  return (
    <li>
      <div>
        <p>
          {ARole[open.role]}, asked in by {open.madeBy}
        </p>
        <p class="quiet">May be used until {dayAndTime(Date.parse(open.endsAt), reader)}.</p>
      </div>
      <button
        type="button"
        disabled={mutation.busy}
        onClick={() => void mutation.run(() => takeBackInvitation(open.id)).then(refresh)}
      >
        Take back
      </button>
      <Refusal error={mutation.error} />
    </li>
  );
}
