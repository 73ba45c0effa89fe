/**
 * What the trade says is hidden by what, as pairs of tasks of the demo van. The left of each arrow has to be in,
 * checked and cured before the right of it begins. All of it is common practice; the pairs are mapped by hand.
 */

export interface TradeRule {
  readonly id: string;
  /** What comes before → what would hide it, and why that hurts. */
  readonly says: string;
  /** [inner task, task that hides it or comes after what hides it] of the demo. */
  readonly pairs: readonly (readonly [string, string])[];
  /** Tasks that ask for the photo themselves, as a check before they start. */
  readonly photoBefore?: readonly string[];
  /** Why no pair of this van expresses it. */
  readonly notHere?: string;
}

/** Each of the first tasks before each of the others. */
export function each(inner: string, later: string): [string, string][] {
  return inner.split(' ').flatMap((a) => later.split(' ').map((b): [string, string] => [a, b]));
}

export const TRADE_RULES: readonly TradeRule[] = [
  {
    id: 'C001',
    says: 'Floor: rust ground, converted and primed → damping, foam, sub-floor: the metal is never seen again.',
    pairs: each('rust-in convert-in prime-in', 'damping floor-insul subfloor-fit'),
  },
  {
    id: 'C002',
    says: 'Floor: hose test of the body, causes found → any floor build-up: water from far away rots it unseen.',
    pairs: each('hose-test-0 hose-test-1', 'floor-insul floor-battens subfloor-fit vinyl'),
  },
  {
    id: 'C008',
    says: 'Floor: through-bolted plates → floor foam and sub-floor: bolt heads disappear.',
    pairs: each('anchor-plates', 'floor-insul subfloor-fit'),
  },
  {
    id: 'C009',
    says: 'Floor: drains, heater spigots, coolant hoses in and tested → sub-floor: a leak under ply shows as rot.',
    pairs: each('floor-holes drains heater-base coolant-run coolant-test', 'subfloor-fit'),
  },
  {
    id: 'C010',
    says: 'Floor: empty conduits with cords → sub-floor: a spare conduit saves doubts about the buried cable.',
    pairs: each('floor-battens floor-photo', 'subfloor-fit'),
  },
  {
    id: 'C011',
    says: 'Floor: ply edges and underside sealed and dry → sub-floor fitted: a raw underside soaks up road spray.',
    pairs: each('subfloor-cut', 'subfloor-fit'),
  },
  {
    id: 'C014',
    says: 'Floor: covering run on under the furniture line → cabinets: spills cannot creep under the edge.',
    pairs: each('vinyl', 'elec-locker kitchen bed bench-seat dry-locker crate-rack'),
  },
  {
    id: 'C016',
    says: 'Underbody: washed, stripped, primed → tank, heater and line brackets: metal behind them is out of reach.',
    pairs: each('rust-under', 'grey-tank heater-base standpipe fuel-line coolant-run anchor-plates'),
  },
  {
    id: 'C025',
    says: 'Underbody: photo set, fall of the drains checked → wax: routes cannot be read under it.',
    pairs: each('drains', 'under-wax'),
    photoBefore: ['under-wax'],
  },
  {
    id: 'C026',
    says: 'Walls: openings cut, sealed, hose-tested → damping, foam: water runs along ribs and shows far off.',
    pairs: [
      ...each('win-left-cut win-left-fit win-slider side-inlets camera-lamp hose-test-1', 'damping'),
      ...each('win-left-cut win-left-fit side-inlets hose-test-1', 'skin-left'),
      ...each('side-inlets camera-lamp awning hose-test-1', 'skin-right'),
    ],
  },
  {
    id: 'C029',
    // The paint of the cut edges is part of the hunt itself.
    says: 'Walls: swarf removed the same day → foam, lining: filings rust at once wherever they land.',
    pairs: each('swarf', 'damping skin-left skin-right close-left close-right'),
  },
  {
    id: 'C035',
    says: 'Walls: inserts set and pull-tested → foam, film, lining: a spinning insert behind them cannot be held.',
    pairs: [
      ...each('inserts-left pull-test', 'skin-left vapour-walls close-left'),
      ...each('inserts-right pull-test', 'skin-right vapour-walls close-right'),
    ],
  },
  {
    id: 'C036',
    says: 'Walls: something to screw overhead lockers to → lining: else visible boards are added later.',
    pairs: each('furring-walls rails', 'close-left close-right'),
  },
  {
    id: 'C039',
    says: 'Walls: drain holes mapped → wax; mapped and probed → foam: blocked drains rot sills and doors.',
    pairs: [
      ...each('survey0', 'cavity-wax'),
      ...each('survey0 cavity-wax', 'skin-left skin-right skin-doors skin-arch'),
    ],
  },
  {
    id: 'C041',
    says: 'Walls: cables in conduit → spray foam: foam locks everything in.',
    pairs: [],
    notHere: 'this van is insulated with sheet bonded to the skin; no foam is sprayed',
  },
  {
    id: 'C045',
    says: 'Walls: both cable ends labelled, list written → fill, film, panels: unlabelled wires cost dearly.',
    pairs: each('labels', 'fill vapour-walls close-left close-right'),
  },
  {
    id: 'C046',
    says: 'Walls: continuity, polarity, insulation tested → fill, panels: a nicked cable is cheap while it is seen.',
    pairs: each('cable-test', 'fill close-left close-right'),
  },
  {
    id: 'C048',
    says: 'Walls: photo with a tape rule → each covering layer: else nobody knows which cable is buried where.',
    pairs: [
      ...each('survey0 swarf', 'damping'), // photo sets 0 and 1
      ...each('pull-test', 'skin-left skin-right'), // photo set 2
      ...each('cable-test', 'fill vapour-walls close-left close-right'), // photo set 5
    ],
    photoBefore: 'damping skin-left skin-right fill vapour-walls close-left close-right'.split(' '),
  },
  {
    id: 'C049',
    says: 'Walls: stud and cable heights marked → panels: screws then miss cables years later.',
    pairs: each('mark-points mark-elec furring-walls cable-test', 'close-left close-right'),
  },
  {
    id: 'C050',
    says: 'Right wall: filler hose and breather fill-tested → panel: it leaks only while filling, behind the panel.',
    pairs: each('filler-hose', 'close-right'),
  },
  {
    id: 'C052',
    says: 'Walls: all services in → rib and cavity fill: it is packed round them, and pulling later tears it.',
    pairs: each(
      'conduit-left conduit-right-ceiling pull-left pull-right pull-solar-sensor pull-230 main-dc filler-hose',
      'fill',
    ),
  },
  {
    id: 'C053',
    says: 'Walls: fill complete, conduits in → vapour film: each later hole lets moist air into a cold cavity.',
    pairs: each('fill conduit-left conduit-right-ceiling', 'vapour-walls'),
  },
  {
    id: 'C057',
    says: 'Walls: rails pull-tested → panels: after closing only the screw heads are seen.',
    pairs: each('rails', 'close-left close-right'),
  },
  {
    id: 'C060',
    says: 'Walls: every check of the zone signed → zone closed: the general rule.',
    pairs: [
      ...each('hose-test-1 anchor-plates cavity-wax pull-test skin-arch main-dc cable-test', 'close-left'),
      ...each('elec-prelook vapour-check rails', 'close-left close-right'),
      ...each(
        'hose-test-1 anchor-plates cavity-wax pull-test skin-arch filler-hose cable-test',
        'close-right',
      ),
    ],
  },
  {
    id: 'C063',
    says: 'Roof: gutter and roof rust treated → rails, fan, gland: bonded parts hide rust, and rust lifts the bond.',
    pairs: each('rust-out', 'solar-rails fan-cut fan-fit rooflight roof-gland'),
  },
  {
    id: 'C069',
    // This van has no roof rack; its solar rails are bonded and bolted at the gutter, outside the room.
    says: 'Roof: every hole made and hose-tested → ceiling foam: one unsealed bolt lets in years of water.',
    pairs: each('fan-cut fan-fit rooflight roof-gland camera-lamp awning hose-test-1', 'skin-ceiling'),
  },
  {
    id: 'C071',
    says: 'Roof: voltage and polarity of the solar tails noted → ceiling closed: a crossed loom hides behind it.',
    pairs: each('solar-panels', 'close-ceiling'),
  },
  {
    id: 'C073',
    says: 'Ceiling: inserts in the bows pull-tested → ceiling foam: the bows vanish under it.',
    pairs: each('inserts-ceiling pull-test', 'skin-ceiling'),
  },
  {
    id: 'C077',
    says: 'Body: air-extraction slots found → pillar and cab linings: covered, they need new slots elsewhere.',
    pairs: [...each('survey0', 'skin-arch'), ...each('skin-arch', 'cab-arch close-left close-right')],
  },
  {
    id: 'C081',
    says: 'Cab: starter feed pulled and grommeted → cab trim and floor back in: it runs under the sill trims.',
    pairs: each('start-feed', 'skin-arch cab-arch subfloor-fit'),
  },
  {
    id: 'C083',
    says: 'Coolant loop pressure-tested cold → floor closed, boiler boxed in: a weeping joint floods the floor.',
    pairs: each('coolant-test', 'subfloor-fit bench-seat'),
  },
  {
    id: 'C085',
    says: 'Sliding door: door and window drains free → foam: water stands in the door.',
    pairs: each('survey0 win-slider cavity-wax hose-test-1', 'skin-doors'),
  },
  {
    id: 'C090',
    says: 'Rear doors: carrier plates and camera cable in → door foam and lining: no hand gets in afterwards.',
    pairs: each('rear-carrier camera-lamp', 'skin-doors door-panels'),
  },
  {
    id: 'C093',
    says: 'Outside: awning backing plates inside → wall foam: bolts need plates, plates need bare ribs.',
    pairs: each('awning', 'skin-right'),
  },
  {
    id: 'C098',
    says: 'Room: ducts and skirting hoses → kitchen and bench carcasses: they run behind the plinths.',
    pairs: each('ducts hoses', 'kitchen bench-seat dry-locker'),
  },
  {
    id: 'C099',
    says: 'Room: water circuit pressure-tested → carcasses: joints behind a standing kitchen are out of reach.',
    pairs: each('water-test', 'kitchen elec-locker bed bench-seat dry-locker'),
  },
];
