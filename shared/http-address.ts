import { z } from 'zod';

const schema = z.url({ protocol: /^https?$/ });

/** Whether a text is an address of the web, with its scheme. */
export const isHttpAddress = (text: string): boolean => schema.safeParse(text).success;
