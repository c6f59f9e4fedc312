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
import { usePeopleWords } from './use-people-words.ts';

export function PeoplePage() {
  return (
    <OnlyFor to="owner">
      <People />
    </OnlyFor>
  );
}

function People() {
  const { text, rich } = usePeopleWords();
  const heading = usePage(text('page-people.people'));
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
          {count === undefined ? text('page-people.people') : text('page-people.people.count', { personCount: count })}
        </h1>
        <p class="lead">{rich('page-people.people.lead', { link: (inner) => <a href="/who-did-what">{inner}</a> })}</p>
        {people.error !== undefined && !people.value && <p class="refusal">{reasonOf(people.error)}</p>}
      </div>
      <Part id="members" title={text('page-people.members')}>
        <ul class="people-list">
          {(people.value?.people ?? []).map((person) => (
            <MemberLine key={person.id} person={person} refresh={refresh} />
          ))}
          {people.value?.damaged.map((person) => (
            <DamagedLine key={person.id} person={person} refresh={refresh} />
          ))}
        </ul>
      </Part>
      <Part id="invite" title={text('page-people.invite')}>
        <Invite refresh={refresh} />
        {(invitations.value?.invitations.length ?? 0) > 0 && (
          <>
            <h3 class="sub-head">{text('page-people.invite.open')}</h3>
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
  const { text } = usePeopleWords();
  const heading = usePage(text('page-people.people'));
  const mutation = useMutation();
  return (
    <div class="page narrow">
      <h1 ref={heading} tabIndex={-1}>
        {text('page-people.first')}
      </h1>
      <p class="lead">{text('page-people.first.says')}</p>
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
          {text('page-people.first.do')}
        </button>
      </p>
    </div>
  );
}

/** Somebody who cannot sign in any more, and can only be removed. */
function DamagedLine({ person, refresh }: { readonly person: DamagedMember; readonly refresh: () => Promise<void> }) {
  const { text } = usePeopleWords();
  return (
    <li>
      <div>
        <h3>{person.name}</h3>
        <p class="quiet">{text('page-people.damaged', { personName: person.name })}</p>
      </div>
      <div class="people-actions">
        <SureButton
          words={text('page-people.remove')}
          asks={text('page-people.remove.damaged', { personName: person.name })}
          sure={text('page-people.remove')}
          act={() => removePerson(person.id).then(refresh)}
        />
      </div>
    </li>
  );
}

function MemberLine({ person, refresh }: { readonly person: Member; readonly refresh: () => Promise<void> }) {
  const { text } = usePeopleWords();
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
          {isMe && <span class="quiet"> {text('page-people.member.you')}</span>}
        </h3>
        <p class="quiet">
          {text('page-people.member.says', {
            sinceText: dayAndTime(Date.parse(person.since), reader),
            isSeen: person.seenAt !== null,
            seenText: person.seenAt === null ? '' : dayAndTime(Date.parse(person.seenAt), reader),
          })}
        </p>
      </div>
      <div class="people-role">
        <PickField
          label={text('page-people.member.role', { personName: person.name })}
          value={person.role}
          choices={[...roles].reverse().map((role) => [role, text(`page-people.role.${role}`)] as const)}
          hint={text(`page-people.role.${person.role}.says`)}
          onValue={(role) => void mutation.run(() => changePerson(person.id, { role })).then(refresh)}
        />
      </div>
      <div class="people-actions">
        <button
          type="button"
          disabled={mutation.busy}
          onClick={() => void mutation.run(async () => setLink((await resetPerson(person.id)).address))}
        >
          {text('page-people.password.new')}
        </button>
        <SureButton
          words={text('page-people.remove')}
          asks={text('page-people.remove.member', { personName: person.name })}
          sure={text('page-people.remove')}
          act={() => removePerson(person.id).then(refresh)}
        />
      </div>
      <HeldPart person={person} refresh={refresh} />
      <Refusal error={mutation.error} />
      {link && (
        <MadeOnce
          title={text('page-people.reset.link', { personName: person.name })}
          says={text('page-people.reset.link.says')}
          text={link}
          copyLabel={text('page-people.reset.link.copy')}
          onDone={() => setLink(undefined)}
        />
      )}
    </li>
  );
}

function Invite({ refresh }: { readonly refresh: () => Promise<void> }) {
  const { text } = usePeopleWords();
  const mutation = useMutation();
  const [role, setRole] = useState<Role>('keeper');
  const [days, setDays] = useState<'1' | '7' | '30'>('7');
  const [address, setAddress] = useState<string>();
  if (address) {
    return (
      <MadeOnce
        title={text('page-people.invitation')}
        says={text('page-people.invitation.says', { role: role === 'viewer' ? 'other' : role })}
        text={address}
        copyLabel={text('page-people.invitation.copy')}
        onDone={() => setAddress(undefined)}
      />
    );
  }
  return (
    <form
      class="form"
      aria-label={text('page-people.invite')}
      onSubmit={(event) => {
        event.preventDefault();
        void mutation.run(async () => {
          setAddress((await invite(role, Number(days))).address);
          await refresh();
        });
      }}
    >
      <Choice
        legend={text('page-people.invite.role')}
        value={role}
        choices={(['keeper', 'viewer', 'owner'] as const).map((one) => [one, text(`page-people.role.${one}`)] as const)}
        onValue={setRole}
      />
      <p class="hint">{text(`page-people.role.${role}.says`)}</p>
      <Choice
        legend={text('page-people.invite.within')}
        value={days}
        choices={[
          ['1', text('page-people.length.day')],
          ['7', text('page-people.length.week')],
          ['30', text('page-people.length.month')],
        ]}
        onValue={setDays}
      />
      <Refusal error={mutation.error} />
      <button type="submit" class="primary" disabled={mutation.busy}>
        {text('page-people.invite.do')}
      </button>
    </form>
  );
}

type Open = Awaited<ReturnType<typeof getInvitations>>['invitations'][number];

function OpenInvitation({ open, refresh }: { readonly open: Open; readonly refresh: () => Promise<void> }) {
  const { text } = usePeopleWords();
  const mutation = useMutation();
  const reader = useReader();
  return (
    <li>
      <div>
        <p>
          {text('page-people.invite.open.who', {
            role: open.role === 'viewer' ? 'other' : open.role,
            isKnown: open.madeBy !== null,
            ownerName: open.madeBy ?? '',
          })}
        </p>
        <p class="quiet">
          {text('page-people.invite.open.ends', { endsText: dayAndTime(Date.parse(open.endsAt), reader) })}
        </p>
      </div>
      <button
        type="button"
        disabled={mutation.busy}
        onClick={() => void mutation.run(() => takeBackInvitation(open.id)).then(refresh)}
      >
        {text('page-people.invite.open.end')}
      </button>
      <Refusal error={mutation.error} />
    </li>
  );
}
