/** What each reason for a refusal means, with what to do about it. */
import { type RefusalReason, refusalReasons } from '../../shared/errors.ts';
import { type Message, message } from '../../shared/messages/message.ts';
import { quantities } from '../../shared/quantity.ts';
import { disconnectedC } from './checked-value.ts';
import { powerOnC } from './power-on-guard.ts';
import { readingTopicPattern } from './topic.ts';

const withParameters: Partial<Record<RefusalReason, Message>> = {
  'topic-shape': message('refusal.meaning.topic-shape', { patternText: readingTopicPattern('<root>') }),
  'too-many-unclaimed': message('refusal.meaning.too-many-unclaimed', { variableText: 'BRANHEARTH_UNCLAIMED_PROBES' }),
  'unknown-quantity': message('refusal.meaning.unknown-quantity', { namesText: quantities.join(', ') }),
  'out-of-range': message('refusal.meaning.out-of-range', { disconnectedC }),
  'power-on-value': message('refusal.meaning.power-on-value', { powerOnC }),
};

/** Of every reason. */
export const refusalMeanings = Object.fromEntries(
  refusalReasons.map((reason) => [reason, withParameters[reason] ?? { code: `refusal.meaning.${reason}`, params: {} }]),
) as Record<RefusalReason, Message>;
