/** Which kind stands open, its draft, writing an entry of it down, and taking that back. */
import { useRef, useState } from 'preact/hooks';
import type { NewEntry } from '../../../../shared/contracts/journal.ts';
import { type EntryKind, entryKindSchema } from '../../../../shared/entry.ts';
import { type Position, positionSchema } from '../../../../shared/names.ts';
import { useInstallation } from '../../data/live/use-installation.ts';
import { type EntryDraft, emptyEntry } from './entry-draft.ts';
import { forgetDraft, type KeptDraft, keepDraft, keptDraft } from './kept-drafts.ts';
import type { WaitingEntry } from './outbox.ts';
import { useJournalWords } from './use-journal-words.ts';
import { takeBack, writeDown } from './waiting.ts';
import { waitingStore } from './waiting-store.ts';

/** What was written down last on this page. */
interface Written {
  readonly kind: EntryKind;
  /** One for each pile that it was written for; none once it was taken back. */
  readonly entries: readonly WaitingEntry[];
}

export function useWriting(pileId: string) {
  const { text } = useJournalWords();
  const [kind, setKind] = useState<EntryKind | null>(kindAskedFor);
  const [written, setWritten] = useState<Written | null>(null);
  const { others, rainsOnAll, setRainsOnAll } = useOtherBeds(pileId);
  const isLost = useInstallation((installation) => installation.link === 'lost');
  const kindButtons = useRef(new Map<EntryKind, HTMLButtonElement>());
  const goTo = (one: EntryKind) => {
    const button = kindButtons.current.get(one);
    button?.focus({ preventScroll: true });
    button?.scrollIntoView({ block: 'nearest' });
  };
  const leave = (one: EntryKind) => {
    setKind((now) => (now === one ? null : now));
    // Once the form is gone, which held the focus.
    requestAnimationFrame(() => goTo(one));
  };
  const write = async (what: EntryKind, entry: NewEntry) => {
    const entries = [await writeDown(pileId, entry)];
    // It rains on a whole site; beds under a roof take nothing of it.
    if (what === 'rained' && rainsOnAll) for (const { id } of others) entries.push(await writeDown(id, entry));
    forgetDraft(pileId, what);
    setWritten({ kind: what, entries });
    leave(what);
  };
  const undo = async ({ kind: what, entries }: Written) => {
    for (const one of entries) await takeBack(one);
    setWritten({ kind: what, entries: [] });
    goTo(what);
  };
  const choose = (one: EntryKind) => {
    setKind(one === kind ? null : one);
    setWritten(null);
  };
  const kindText = written && text('page-journal.kind', { kind: written.kind });
  return {
    kind,
    choose,
    leave,
    write,
    status: !kindText
      ? ''
      : written.entries.length > 0
        ? text('page-journal.kept', { kindText, isLost })
        : text('page-journal.undone', { kindText }),
    undo: written && written.entries.length > 0 ? () => undo(written) : undefined,
    kindButton: (one: EntryKind) => (button: HTMLButtonElement | null) => {
      if (button) kindButtons.current.set(one, button);
    },
    others,
    rainsOnAll,
    setRainsOnAll,
  };
}

/** The other beds of the site, on which it rains too. */
function useOtherBeds(pileId: string) {
  const piles = useInstallation((installation) => installation.piles) ?? [];
  const site = piles.find(({ id }) => id === pileId)?.site;
  const [rainsOnAll, setRainsOnAll] = useState(true);
  return {
    others: piles.filter((one) => one.id !== pileId && one.site === site && one.batch !== null),
    rainsOnAll,
    setRainsOnAll,
  };
}

/** The entry of a kind as it was left, kept again with every key, and thrown away. */
export function useDraft(pileId: string, kind: EntryKind) {
  const [first] = useState<KeptDraft>(
    () => keptDraft(pileId, kind) ?? { draft: { ...emptyEntry(kind), position: positionAskedFor() }, at: null },
  );
  const isEmpty = (draft: EntryDraft, at: string | null) =>
    at === null && JSON.stringify({ ...draft, position: '' }) === JSON.stringify({ ...emptyEntry(kind), position: '' });
  return {
    first,
    onDraft(draft: EntryDraft, at: string | null) {
      if (isEmpty(draft, at)) forgetDraft(pileId, kind);
      else keepDraft(pileId, { draft, at });
    },
    async throwAway() {
      const kept = keptDraft(pileId, kind);
      forgetDraft(pileId, kind);
      for (const id of kept?.draft.photoIds ?? []) await waitingStore.removePhoto(id);
    },
  };
}

/** ... and for the place of a temperature; a pile is judged by its core. */
function positionAskedFor(): Position {
  return positionSchema.safeParse(new URLSearchParams(location.search).get('at')).data ?? 'core';
}

/** A link may ask for one kind. @example '?write=measured' */
function kindAskedFor(): EntryKind | null {
  return entryKindSchema.safeParse(new URLSearchParams(location.search).get('write')).data ?? null;
}
