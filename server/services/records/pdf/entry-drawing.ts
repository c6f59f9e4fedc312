/** What was done and seen, and the photos of it, in the record on paper. */
import type { BatchRecordSheet } from '../../../../shared/contracts/records.ts';
import { timeWords } from '../../day-words.ts';
import type { Sheet } from './sheet.ts';

export function drawEntries(sheet: Sheet, { entries }: BatchRecordSheet, zone: string): void {
  sheet.heading('What was done and seen');
  if (entries.length === 0) {
    sheet.paragraph('Nothing was written down.');
    return;
  }
  const rows = entries.map(({ at, says, note, by, corrected, photoIds }) => [
    timeWords(Date.parse(at), zone),
    [
      says,
      photoIds.length > 0 ? `(${photoIds.length} photo${photoIds.length > 1 ? 's' : ''})` : '',
      corrected ? '(corrected)' : '',
    ]
      .filter(Boolean)
      .join(' '),
    note ?? '',
    by ?? '',
  ]);
  sheet.table(
    [
      { heading: 'When', share: 3 },
      { heading: 'What', share: 4 },
      { heading: 'Note', share: 5 },
      { heading: 'Who', share: 2 },
    ],
    rows,
  );
}

const mostPhotosShown = 12;
const photoSide = 118;

export function drawPhotos(
  sheet: Sheet,
  { entries }: BatchRecordSheet,
  photos: ReadonlyMap<string, Buffer>,
  zone: string,
): void {
  const shown = entries.flatMap(({ photoIds, at }) =>
    photoIds.flatMap((id) => {
      const picture = photos.get(id);
      return picture ? [{ picture, at }] : [];
    }),
  );
  if (shown.length === 0) return;
  sheet.need(photoSide + 60);
  sheet.heading('Photos');
  const { doc } = sheet;
  shown.slice(0, mostPhotosShown).forEach(({ picture, at }, i) => {
    const column = i % 4;
    if (column === 0) sheet.need(photoSide + 20);
    const [x, y] = [sheet.left + column * (sheet.width / 4), doc.y];
    doc
      .font('plain')
      .fontSize(7)
      .text(timeWords(Date.parse(at), zone), x, y, { width: photoSide, lineBreak: false });
    doc.image(picture, x, y + 11, { fit: [photoSide, photoSide] });
    doc.x = sheet.left;
    doc.y = column === 3 || i === Math.min(shown.length, mostPhotosShown) - 1 ? y + photoSide + 16 : y;
  });
  if (shown.length > mostPhotosShown)
    sheet.paragraph(`${shown.length - mostPhotosShown} more are in the journal.`, { soft: true });
}
