/**
 * The squeeze test: one scale for bran and one for soil, in the same words wherever it is asked for, noted, shown or practised.
 *
 * Bran: two or three drops right, a stream too wet, crumbling too dry (community composting practice, read second-hand). Soil: a ball
 * that holds, wets the palm and gives no drop is near field capacity (USDA NRCS, "Estimating Soil Moisture by Feel and Appearance",
 * 1998, from memory). How deep and how long is common practice, no source.
 */
import type { squeezeFeels } from './entry.ts';
import { type Message, message } from './messages/message.ts';
import type { Stage } from './names.ts';

/** A hand reaches into nothing that is as hot: a scald needs seconds at 60 °C and minutes at 50 °C (common practice, no source) [°C]. */
export const handInBelowC = 50;

export type SqueezeFeel = (typeof squeezeFeels)[number];

/** What to take, where, how hard and how long. */
export const squeezeHow: Message = message('squeeze.how');

/** @example squeezeFelt('drips') // => "holds together, two or three drops" */
export const squeezeFelt = (feel: SqueezeFeel): Message => message(`squeeze.feel.${feel}`);

/** @example squeezeMeans('drips', 'soil') // => "a little wet"; of bran it is "right" */
export const squeezeMeans = (feel: SqueezeFeel, stage: Stage): Message => message(`squeeze.${stage}.${feel}`);

/** @example squeezeResult('crumbles', 'bran') // => "Crumbles when the hand opens: too dry" */
export const squeezeResult = (feel: SqueezeFeel, stage: Stage): Message =>
  message('squeeze.result', { feelCapitalPart: squeezeFelt(feel), meaningPart: squeezeMeans(feel, stage) });

export const squeezeTodo = (feel: SqueezeFeel): Message => message(`squeeze.todo.${feel}`);
