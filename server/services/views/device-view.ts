import type { z } from 'zod';
import type { pushDeviceSchema } from '../../../shared/contracts/notifications.ts';
import { toInstant } from '../../../shared/contracts/time.ts';
import type { PushDevice } from '../../../shared/store/notifications-store.ts';

/** A device as its person, or an owner, sees it: never the address that pushes to it. */
export function deviceView({ id, label, addedAtMs, lastOkAtMs }: PushDevice): z.output<typeof pushDeviceSchema> {
  return { id, label, addedAt: toInstant(addedAtMs), lastOkAt: lastOkAtMs === null ? null : toInstant(lastOkAtMs) };
}
