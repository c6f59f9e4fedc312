/** Imported before any schema reads something: the content security policy forbids code made from strings, which zod would otherwise try first. */
import { config } from 'zod';

config({ jitless: true });
