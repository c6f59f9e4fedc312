/** What was smelt and seen on a pile, and where and how much of it. */
import { amountsSeen, growthColours, growthPlaces, smells } from '../../../../shared/entry.ts';
import { TextField } from '../../ui/parts/forms.tsx';
import { type KindProps, named } from './kind-fields.ts';
import { OneOf, SomeOf } from './thumb-choice.tsx';
import { useJournalWords } from './use-journal-words.ts';

export function Smelt({ draft, onDraft, wrong }: KindProps) {
  const { text } = useJournalWords();
  return (
    <SomeOf
      legend={text('page-journal.smells')}
      values={draft.smells}
      choices={named(smells, (smell) => text('page-journal.smells.of', { smell }))}
      onValues={(chosen) => onDraft({ smells: chosen })}
      error={wrong('smells')}
    />
  );
}

export function Growth({ draft, onDraft, wrong }: KindProps) {
  const { text } = useJournalWords();
  return (
    <>
      <OneOf
        legend={text('page-journal.growth')}
        value={draft.colour}
        choices={named(growthColours, (colour) => text('page-journal.growth.of', { colour }))}
        onValue={(colour) => onDraft({ colour })}
        error={wrong('colour')}
      />
      {draft.colour === 'other' && (
        <TextField
          label={text('page-journal.growth.other')}
          value={draft.otherColour}
          onValue={(otherColour) => onDraft({ otherColour })}
          error={wrong('otherColour')}
        />
      )}
      <PlaceSeen draft={draft} onDraft={onDraft} />
      <HowMany draft={draft} onDraft={onDraft} />
    </>
  );
}

export function Pests({ draft, onDraft, wrong }: KindProps) {
  const { text } = useJournalWords();
  return (
    <>
      <TextField
        label={text('page-journal.pests')}
        hint={text('page-journal.pests.hint')}
        value={draft.what}
        onValue={(what) => onDraft({ what })}
        error={wrong('what')}
      />
      <HowMany draft={draft} onDraft={onDraft} />
    </>
  );
}

/** As texts have it: the name of a choice there has no hyphen. */
const placeKey = (place: (typeof growthPlaces)[number]) => (place === 'all-through' ? 'through' : place);

export function PlaceSeen({ draft, onDraft }: Pick<KindProps, 'draft' | 'onDraft'>) {
  const { text } = useJournalWords();
  return (
    <OneOf
      legend={text('page-journal.where')}
      optional
      value={draft.place}
      choices={named(growthPlaces, (place) => text('page-journal.place', { place: placeKey(place) }))}
      onValue={(place) => onDraft({ place })}
    />
  );
}

function HowMany({ draft, onDraft }: Pick<KindProps, 'draft' | 'onDraft'>) {
  const { text } = useJournalWords();
  return (
    <OneOf
      legend={text('page-journal.how-many')}
      optional
      value={draft.howMany}
      choices={named(amountsSeen, (amount) => text('page-journal.amount', { amount }))}
      onValue={(howMany) => onDraft({ howMany })}
    />
  );
}
