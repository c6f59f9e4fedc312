/** How the chip and the soil probe are wired to the board: our own drawing. */
import './help-drawings.css';

interface WiringProps {
  readonly words: string;
  readonly withSoil: boolean;
}

/** Height of each pin of the board. */
const pins = { '3V3': 34, GPIO4: 74, GND: 114, GPIO34: 154 } as const;
const boardX = 84;
/** As it is printed on parts and shop pages everywhere, as are the pins. */
const resistor = '4.7 kΩ';

export function WiringDrawing({ words, withSoil }: WiringProps) {
  const shown = Object.entries(pins).filter(([name]) => withSoil || name !== 'GPIO34');
  return (
    <svg class="help-svg" viewBox={`0 0 272 ${withSoil ? 218 : 140}`} role="img" aria-label={words}>
      <rect class="help-box" x="4" y="10" width={boardX - 4} height={withSoil ? 164 : 124} rx="3" />
      {shown.map(([name, y]) => (
        <g key={name}>
          <circle class="help-tip" cx={boardX} cy={y} r="3.5" />
          <text class="help-number" x={boardX - 8} y={y + 4.5} text-anchor="end" lang="zxx">
            {name}
          </text>
        </g>
      ))}
      <path
        class="help-cable"
        d={`M${boardX} ${pins['3V3']}H208M${boardX} ${pins.GPIO4}H208M${boardX} ${pins.GND}H208`}
      />
      <path class="help-thin" d={`M132 ${pins['3V3']}V42M132 66V${pins.GPIO4}`} />
      <rect class="help-box" x="126" y="42" width="12" height="24" />
      <text class="help-number" x="143" y="58" lang="zxx">
        {resistor}
      </text>
      <circle class="help-tip" cx="132" cy={pins['3V3']} r="2.5" />
      <circle class="help-tip" cx="132" cy={pins.GPIO4} r="2.5" />
      <rect class="help-box" x="208" y="24" width="56" height="100" rx="12" />
      <text class="help-number" x="236" y={pins.GPIO4 - 24} text-anchor="middle">
        +
      </text>
      <text class="help-number" x="236" y={pins.GPIO4 + 4.5} text-anchor="middle">
        1
      </text>
      <text class="help-number" x="236" y={pins.GPIO4 + 32} text-anchor="middle">
        −
      </text>
      {withSoil && <SoilProbe />}
    </svg>
  );
}

function SoilProbe() {
  return (
    <>
      <path class="help-cable" d={`M${boardX} ${pins.GPIO34}H208`} />
      <path class="help-cable" d={`M108 ${pins['3V3']}V178H208M118 ${pins.GND}V200H208`} />
      <circle class="help-tip" cx="108" cy={pins['3V3']} r="2.5" />
      <circle class="help-tip" cx="118" cy={pins.GND} r="2.5" />
      <path class="help-box" d="M208 142H262V212H208Z" />
      <text class="help-number" x="236" y="182" text-anchor="middle">
        2
      </text>
    </>
  );
}
