/** What was done and seen, and the photos of it, in the record on paper. */
import { message } from '../../../../shared/messages/message.ts';
import { type Paper, whenMessage } from './paper.ts';

export function drawEntries({ sheet, say, record: { entries } }: Paper): void {
  sheet.heading(say(message('record.heading.entries')));
  if (entries.length === 0) {
    sheet.paragraph(say(message('record.nothing-written')));
    return;
  }
  const rows = entries.map(({ at, says, note, by, corrected, photoIds }) => [
    say(whenMessage(at)),
    [
      says,
      ...(photoIds.length > 0 ? [say(message('record.photos', { photoCount: photoIds.length }))] : []),
      ...(corrected ? [say(message('record.corrected'))] : []),
    ].join(' '),
    note ?? '',
    by ?? '',
  ]);
  sheet.table(
    [
      { heading: say(message('record.column.when')), share: 3 },
      { heading: say(message('record.column.what')), share: 4 },
      { heading: say(message('record.column.note')), share: 5 },
      { heading: say(message('record.column.who')), share: 2 },
    ],
    rows,
  );
}

const mostPhotosShown = 12;
const photoSide = 118;

export function drawPhotos({ sheet, say, record: { entries } }: Paper, photos: ReadonlyMap<string, Buffer>): void {
  const shown = entries.flatMap(({ photoIds, at }) =>
    photoIds.flatMap((id) => {
      const picture = photos.get(id);
      return picture ? [{ picture, at }] : [];
    }),
  );
  if (shown.length === 0) return;
  sheet.need(photoSide + 60);
  sheet.heading(say(message('record.heading.photos')));
  const { doc } = sheet;
  shown.slice(0, mostPhotosShown).forEach(({ picture, at }, i) => {
    const column = i % 4;
    if (column === 0) sheet.need(photoSide + 20);
    const [x, y] = [sheet.left + column * (sheet.width / 4), doc.y];
    doc.fontSize(7);
    sheet.write(say(whenMessage(at)), x, y, { width: photoSide, lineBreak: false });
    doc.image(picture, x, y + 11, { fit: [photoSide, photoSide] });
    doc.x = sheet.left;
    doc.y = column === 3 || i === Math.min(shown.length, mostPhotosShown) - 1 ? y + photoSide + 16 : y;
  });
  if (shown.length > mostPhotosShown)
    sheet.paragraph(say(message('record.more-photos', { moreCount: shown.length - mostPhotosShown })), { soft: true });
}
