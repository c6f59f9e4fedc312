/** The routes of records, label and calendar, one function each. */
import { batchRecordSchema, calendarSchema, labelSchema } from '../../../../shared/contracts/records.ts';
import { ask } from '../../data/client.ts';
import { getFile } from '../../data/files.ts';

const piece = encodeURIComponent;

export const getRecord = (batchId: string) => ask(batchRecordSchema, `/api/batches/${piece(batchId)}/record`);
export const getCalendar = () => ask(calendarSchema, '/api/calendar');
export const renewCalendar = () => ask(calendarSchema, '/api/calendar/renewal', { method: 'POST', body: {} });
export const getLabel = (pileId: string) => ask(labelSchema, `/api/piles/${piece(pileId)}/label`);
export const getLabelPicture = (pileId: string) => getFile(`/api/piles/${piece(pileId)}/label.svg`);
