/**
 * The other order rules of the trade, beside those of what is hidden by what: as pairs of tasks of starter builds. All of
 * it is common practice; the pairs are mapped by hand.
 */
import { each, type TradeRule } from './trade-hidden-by.ts';

export interface BeforeRule extends TradeRule {
  /** [part, the task that cannot start without it in hand, the task it is used in] of the catalogue. */
  readonly inHand?: readonly (readonly [string, string])[];
}

const CUTS =
  'win-left-cut win-slider win-rear fan-cut rooflight cooling-cut side-inlets boiler-flue roof-gland';

export const BEFORE_RULES: readonly BeforeRule[] = [
  {
    id: 'C003',
    says: 'Floor: tank and lines looked at from below → any hole through the floor.',
    pairs: each('trace-lines survey0', 'floor-holes'),
  },
  {
    id: 'C004',
    says: 'Floor: holes cut, primed, sealed → floor foam and underbody wax.',
    pairs: each('floor-holes', 'floor-insul under-wax'),
  },
  {
    id: 'C005',
    says: 'Floor: primer ready for the next coat → seam sealer, top coat.',
    pairs: each('prime-in', 'seam-seal topcoat-in'),
  },
  {
    id: 'C006',
    says: 'Floor: seam sealer cured → top coat: wet sealer under paint wrinkles.',
    pairs: each('seam-seal', 'topcoat-in'),
  },
  {
    id: 'C007',
    says: 'Floor: seat and belt bolts metal to metal → foam, ply, covering: soft layers creep.',
    pairs: each('seat-frame', 'floor-insul subfloor-fit vinyl'),
  },
  {
    id: 'C012',
    says: 'Floor: glue of the sub-floor cured → walking, furniture.',
    pairs: each('subfloor-fit', 'step vinyl kitchen bench-seat'),
  },
  {
    id: 'C013',
    says: 'Floor: cutting, lining, dusty work done → floor covering.',
    pairs: each('swarf close-ceiling close-left close-right panels-wall-cut foam-trim', 'vinyl'),
  },
  {
    id: 'C015',
    says: 'Floor: layout tried at full size → plates and hard points.',
    pairs: each('layout', 'anchor-plates floor-battens seat-frame'),
  },
  {
    id: 'C017',
    says: 'Underbody: all brackets, holes, lines fitted → wax.',
    pairs: each(
      'grey-tank grey-plumb heater-base fuel-line standpipe drains fresh-tank-below fresh-plumb-below helper-springs raise seat-frame',
      'under-wax',
    ),
  },
  {
    id: 'C018',
    says: 'Underbody: coating warm and cured → road use, cold, wet.',
    pairs: each('under-wax', 'shakedown'),
  },
  {
    id: 'C019',
    says: 'Underbody: standpipe and line fitted, no weep → wax, first run of the heater.',
    pairs: each('standpipe fuel-line', 'under-wax heat-test'),
  },
  {
    id: 'C020',
    says: 'Underbody: end of the exhaust fixed → tanks placed.',
    pairs: each('heater-base', 'grey-tank fresh-tank-below'),
  },
  {
    id: 'C021',
    says: 'Underbody: exhaust route and length in hand → heater bolted down, furniture over it.',
    pairs: each('heater-base', 'heat-test dry-locker kitchen'),
    inHand: [['p072', 'heater-base']],
  },
  {
    id: 'C022',
    says: 'Underbody: floor exits of heater or hob → worktop and drawers above.',
    pairs: each('floor-holes', 'kitchen worktop fronts'),
  },
  {
    id: 'C023',
    says: 'Underbody: welding finished → fuel hoses, cables, foam, wax nearby.',
    pairs: each('patch-holes', 'fuel-line pull-left floor-insul skin-left foam-spray under-wax cavity-wax'),
  },
  {
    id: 'C024',
    says: 'Underbody: tanks and batteries settled in the axle table → brackets drilled.',
    pairs: each('mass-budget', 'anchor-plates grey-tank fresh-tank-below helper-springs'),
  },
  {
    id: 'C027',
    says: 'Walls: sealant cured to depth → hose test.',
    pairs: each(
      'win-left-fit win-slider win-rear fan-fit rooflight cooling-fit rack-points boiler-flue side-inlets',
      'hose-test-1',
    ),
  },
  {
    id: 'C028',
    says: 'Walls: cut edge primed → sealant bead, window frame.',
    pairs: [
      ...each('win-left-cut', 'win-left-fit'),
      ...each('fan-cut', 'fan-fit'),
      ...each('cooling-cut', 'cooling-fit'),
    ],
  },
  {
    id: 'C030',
    says: 'Walls: windows and fan in hand, cuts done → all other work inside.',
    pairs: each(`open-confirm ${CUTS}`, 'damping inserts-left skin-left conduit-left'),
    inHand: [
      ['p025', 'open-confirm'],
      ['p027', 'open-confirm'],
      ['p028', 'open-confirm'],
      ['p030', 'open-confirm'],
      ['cooling-unit', 'open-confirm'],
      ['rack', 'open-confirm'],
    ],
  },
  {
    id: 'C031',
    says: 'Walls: pilot holes checked from both sides → cut.',
    pairs: each('open-confirm', `${CUTS} floor-holes rack-points`),
  },
  {
    id: 'C032',
    says: 'Walls: furniture plan fixed → window and inlet positions.',
    pairs: each('layout', 'open-confirm win-left-cut side-inlets'),
  },
  {
    id: 'C033',
    says: 'Walls: degreased metal → damping sheet.',
    pairs: each('deep-clean topcoat-in', 'damping'),
  },
  {
    id: 'C034',
    says: 'Walls: hole deburred on the back → insert set.',
    pairs: [],
    notHere: 'one task drills, deburrs, primes and sets an insert',
  },
  {
    id: 'C037',
    says: 'Walls: last drilling in ribs and sills → cavity wax.',
    pairs: each(
      'inserts-left inserts-right inserts-ceiling anchor-plates seat-frame rear-carrier',
      'cavity-wax',
    ),
  },
  {
    id: 'C038',
    says: 'Walls: bonding and sealing nearby done → cavity wax.',
    pairs: each('win-left-fit win-slider side-inlets rack-points', 'cavity-wax'),
  },
  {
    id: 'C040',
    says: 'Walls: belt and airbag pillars marked → any foam or fill.',
    pairs: [
      ...each('trace-lines', 'skin-left skin-arch fill foam-spray'),
      ...each('foam-mask', 'foam-spray'),
    ],
  },
  {
    id: 'C042',
    says: 'Walls: bonded sheet on the skin → conduits on ribs: the order flips with the insulation.',
    pairs: [
      ...each('skin-left', 'conduit-left'),
      ...each('skin-right skin-ceiling', 'conduit-right-ceiling'),
    ],
  },
  {
    id: 'C043',
    says: 'Walls: spray foam gassed out → working inside, covering.',
    pairs: each('foam-spray', 'foam-trim furring-walls furring-ceiling close-left'),
  },
  {
    id: 'C044',
    says: 'Walls: conduits fixed, edges grommeted → cables pulled.',
    pairs: [
      ...each('conduit-left', 'pull-left main-dc pull-230 pull-cooling'),
      ...each('conduit-right-ceiling', 'pull-ceiling pull-right pull-work-lights'),
    ],
  },
  {
    id: 'C047',
    says: 'Walls: 230 V first fix seen by the electrician → panels.',
    pairs: each('elec-prelook', 'fill foam-spray close-left close-right'),
  },
  {
    id: 'C051',
    says: 'Walls: decided that fresh-water hoses stay on the warm side → first-fix water.',
    pairs: each('water-heat-design', 'hoses drains coolant-run'),
  },
  {
    id: 'C054',
    says: 'Walls: film stretched and taped → battens.',
    pairs: each('vapour-walls vapour-check', 'furring-walls'),
  },
  {
    id: 'C055',
    says: 'Walls: leaks felt with the fan pulling → battens, panels.',
    pairs: each('vapour-check', 'furring-walls furring-ceiling close-left close-right'),
  },
  {
    id: 'C056',
    says: 'Walls: battens screwed to inserts only → rails, panels.',
    pairs: each('inserts-left inserts-right furring-walls', 'rails close-left close-right'),
  },
  {
    id: 'C058',
    says: 'Walls: battens and rails in place → panel templates.',
    pairs: each('furring-walls rails', 'panels-wall-cut'),
  },
  {
    id: 'C059',
    says: 'Walls: panels sealed, oiled off the van, dry → panels up.',
    pairs: each('panels-finish', 'close-ceiling close-left close-right door-panels'),
  },
  {
    id: 'C061',
    says: 'Walls: hatches planned → panels cut.',
    pairs: each('mark-elec', 'panels-wall-cut panels-ceiling-cut'),
  },
  {
    id: 'C062',
    says: 'Walls: mass table with sides → circuits and plates laid out.',
    pairs: each('mass-budget', 'mark-points anchor-plates mark-elec'),
  },
  {
    id: 'C064',
    says: 'Roof: fan, roof light and cooling unit placed → solar rails placed.',
    pairs: each('fan-cut rooflight cooling-cut rack-mount', 'solar-rails'),
  },
  {
    id: 'C065',
    says: 'Roof: bows mapped from inside → roof cut.',
    pairs: each('survey0', 'fan-cut rooflight cooling-cut rack-points roof-gland'),
  },
  {
    id: 'C066',
    says: 'Roof: adaptor or frame bonded and cured → flange.',
    pairs: [...each('fan-cut', 'fan-fit'), ...each('cooling-cut', 'cooling-fit')],
  },
  {
    id: 'C067',
    says: 'Roof: dry day above the limit of the sealant → roof cut.',
    pairs: [],
    notHere: 'a condition of the task and no order: it is looked at below',
  },
  {
    id: 'C068',
    says: 'Roof: surface under the flange swept → flange bedded.',
    pairs: [],
    notHere: 'part of the one task that beds the flange',
  },
  {
    id: 'C070',
    says: 'Roof: bonded rails cured → driving with panels.',
    pairs: each('solar-rails', 'solar-panels shakedown'),
  },
  {
    id: 'C072',
    says: 'Roof: light circuits run and tested → ceiling closed.',
    pairs: each('pull-ceiling cable-test', 'close-ceiling'),
  },
  {
    id: 'C074',
    says: 'Roof: lamp and switch positions against lockers → holes in the ceiling panel.',
    pairs: each('mark-elec', 'panels-ceiling-cut'),
  },
  {
    id: 'C075',
    says: 'Roof: ceiling panels up → wall panels up.',
    pairs: each('close-ceiling', 'close-left close-right'),
  },
  { id: 'C076', says: 'Cab: consent → bulkhead out.', pairs: each('consent', 'bulkhead-out') },
  {
    id: 'C078',
    says: 'Cab: seat looked at for airbags → swivel.',
    pairs: each('consent trace-lines', 'swivel seat-frame'),
  },
  {
    id: 'C079',
    says: 'Cab: battery off → drilling near airbag sensors.',
    pairs: each('trace-lines', 'inserts-left inserts-right anchor-plates seat-frame'),
  },
  {
    id: 'C080',
    says: 'Cab: curtain airbag and belt tops mapped → shelf, track, lining.',
    pairs: each('trace-lines', 'cab-arch skin-arch'),
  },
  {
    id: 'C082',
    says: 'Cab: fuse at the post → far end of the feed connected.',
    pairs: each('start-feed', 'main-dc chargers power-up'),
  },
  {
    id: 'C084',
    says: 'Sliding door: latch, rods, loom traced → window cut.',
    pairs: each('trace-lines', 'win-slider'),
  },
  {
    id: 'C086',
    says: 'Sliding door: removable foam → door lining.',
    pairs: each('skin-doors', 'door-panels'),
  },
  {
    id: 'C087',
    says: 'Sliding door: edge of the sub-floor final → step profile.',
    pairs: each('subfloor-fit', 'step'),
  },
  {
    id: 'C088',
    says: 'Rear doors: lock, hinge, loom traced → panes cut.',
    pairs: each('trace-lines', 'win-rear'),
  },
  {
    id: 'C089',
    says: 'Rear doors: glass adhesive at strength → doors slammed, driving.',
    pairs: each('win-rear', 'hose-test-1 shakedown'),
  },
  {
    id: 'C091',
    says: 'Rear doors: carrier in the axle table → carrier drilled.',
    pairs: each('mass-budget', 'rear-carrier'),
  },
  {
    id: 'C092',
    says: 'Outside: body paint cured → masking tape, sealant.',
    pairs: each('rust-out', 'win-left-cut win-slider side-inlets camera-lamp awning boiler-flue'),
  },
  {
    id: 'C094',
    says: 'Outside: height and lid of the inlet settled → its hole.',
    pairs: each('consent open-confirm', 'side-inlets'),
  },
  {
    id: 'C095',
    says: 'Outside: vents clear of exhausts → their holes.',
    pairs: each('open-confirm', 'floor-holes side-inlets boiler-flue'),
  },
  {
    id: 'C096',
    says: 'Outside: outside features done → request for another class.',
    pairs: each('win-left-fit win-slider awning rack-points', 'inspection'),
  },
  {
    id: 'C097',
    says: 'Room: tank and battery locker strapped → bed and lockers.',
    pairs: [...each('water-tank elec-locker', 'bed folding-bed'), ...each('waste-inside', 'kitchen')],
  },
  {
    id: 'C100',
    says: 'Room: appliances in hand → carcass cut.',
    pairs: [],
    inHand: [
      ['p134', 'cut-sheets'],
      ['p135', 'cut-sheets'],
      ['p140', 'cut-sheets'],
      ['p141', 'cut-sheets'],
      ['gas-hob', 'cut-sheets'],
      ['gas-boiler', 'cut-sheets'],
      ['waste-tank-inside', 'cut-sheets'],
      ['p124', 'elec-locker'],
      ['p130', 'elec-locker'],
      ['inverter', 'elec-locker'],
    ],
  },
  { id: 'C101', says: 'Room: overhead lockers up → worktop.', pairs: each('over-left', 'worktop') },
  {
    id: 'C102',
    says: 'Room: oil of the worktop hard → sink and hob bedded.',
    pairs: each('worktop', 'sink-pump hob-load gas-hob'),
  },
  {
    id: 'C103',
    says: 'Room: carcasses fixed → doors and drawers adjusted.',
    pairs: each('kitchen bench-seat over-left dry-locker', 'fronts'),
  },
  {
    id: 'C104',
    says: 'Room: main fuse, isolator, fuse board → battery connected.',
    pairs: each('busbars fuse-board', 'power-up'),
  },
  {
    id: 'C105',
    says: 'Room: dead tests passed → live tests.',
    pairs: each('cable-test', 'power-up elec-cert'),
  },
  {
    id: 'C106',
    says: 'Room: certificate of the 230 V → sockets and hob used.',
    pairs: each('elec-cert', 'hob-load soak shakedown'),
  },
  {
    id: 'C107',
    says: 'Room: alarms working → first night, first flame inside.',
    pairs: each('alarms', 'heater-second gas-hob soak shakedown'),
  },
  {
    id: 'C108',
    says: 'Room: heater run from a bench supply → heater boxed in.',
    pairs: each('heat-test', 'kitchen bench-seat dry-locker'),
  },
  {
    id: 'C109',
    says: 'Room: gas tight, tested by a competent person → cupboards over the pipe (EN 1949).',
    pairs: each('gas-test', 'kitchen bench-seat dry-locker'),
  },
  {
    id: 'C110',
    says: 'Room: seats, bed, cooker, storage fixed → inspection.',
    pairs: each('bench-seat kitchen bed folding-bed fronts belted-seats', 'inspection'),
  },
  {
    id: 'C111',
    says: 'Room: second hose test after a shake-down → permanent trims.',
    pairs: [],
    notHere:
      'surrounds and strips here are screwed and come off in a minute; the second hose test looks behind them after 1,000 km',
  },
  {
    id: 'C112',
    says: 'Room: weighed loaded, each axle → registration.',
    pairs: each('weigh-loaded', 'inspection register'),
  },
];
