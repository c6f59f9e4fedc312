/** The files for a board with the values of one probe: what stands between two @ is written as the language of the file writes it. */
import { z } from 'zod';

/** No control signs: with one a line would not be what it seems, in any of the languages. */
const lineSchema = z.string().regex(/^\P{Cc}*$/u);

export const probeSettingsSchema = z.object({
  wifi: lineSchema,
  wifiPassword: lineSchema,
  broker: lineSchema,
  port: z.number().int().min(1).max(65_535),
  user: lineSchema,
  password: lineSchema,
  root: lineSchema,
  site: lineSchema,
  probe: lineSchema,
  withSoil: z.boolean(),
  withBattery: z.boolean(),
});
export type ProbeSettings = z.infer<typeof probeSettingsSchema>;

/** Pins of the first converter of an ESP32: the second does not measure while Wi-Fi is on (ESP-IDF, “ADC limitations”). */
const soilPin = 34;
const batteryPin = 35;

interface Language {
  readonly text: (value: string) => string;
  readonly none: string;
}

/** A JSON text without control signs is a text in Python, in C and in YAML. */
const quoted = (value: string) => JSON.stringify(value);
/** In a YAML text `$` begins a substitution of ESPHome, unless it is doubled. */
const languages = {
  py: { text: quoted, none: 'None' },
  ino: { text: quoted, none: '-1' },
  yaml: { text: (value: string) => quoted(value.replaceAll('$', '$$$$')), none: '""' },
} as const satisfies Record<string, Language>;

/** @param template A file of `ingest/probes/`, by its ending. */
export function fillIn(template: string, ending: keyof typeof languages, settings: ProbeSettings): string {
  const { text, none } = languages[ending];
  const { root, site, probe, port } = probeSettingsSchema.parse(settings);
  const topic = `${root}/${site}/${probe}`;
  const values: Readonly<Record<string, string>> = {
    wifi: text(settings.wifi),
    wifiPassword: text(settings.wifiPassword),
    broker: text(settings.broker),
    port: String(port),
    user: text(settings.user),
    password: text(settings.password),
    topic: text(`${topic}/reading`),
    soilPin: settings.withSoil ? String(soilPin) : none,
    batteryPin: settings.withBattery ? String(batteryPin) : none,
  };
  return template.replace(/@(\w+)@/g, (whole, name: string) => values[name] ?? whole);
}
