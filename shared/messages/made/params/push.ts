// Made from ../../en/push.json by `npm run messages`; change that instead.
import type { NoParams } from '../../param-types.ts';

export interface PushParams {
  'push.acknowledge': NoParams;
  'push.done': NoParams;
  'push.not-done': NoParams;
  'push.failed': NoParams;
  'push.failed.says': NoParams;
  'push.unreadable': NoParams;
}
