// Written by tools/generate.py from `wheyfield schema`; do not edit.
// Scalars are texts with their unit: "0.5 acre", "20 L", "2027-03-04".

export interface Season {
  season: SeasonHead;
  meetings: Meetings;
  market: Market;
  measures?: Measure[];
  places: Place[];
  milk: MilkRule[];
  vessels: Vessel[];
  containers?: Container[];
  water: Water[];
  labour: Labour;
  prices: Price[];
  stock?: StockItem[];
  produce?: Produce[];
  preparations?: Preparation[];
  absences?: Absence[];
  farms: Farm[];
}

export interface SeasonHead {
  name: string;
  from: string;
  to: string;
  first_start: string;
  currency: string;
  recipe: string;
  strength: string;
  windows?: 'calendar' | 'degree-days';
  serum_life: string;
  spare: string;
}

export interface Meetings {
  day: string;
  none_on?: string[];
}

export interface Market {
  day: string;
}

export interface Measure {
  name: string;
  is: string;
}

export interface Place {
  name: string;
  altitude: string;
  months?: MonthMean[];
  station?: string;
  readings?: Reading[];
}

export interface MonthMean {
  month: string;
  min: string;
  max: string;
}

export interface Reading {
  date: string;
  min: string;
  max: string;
}

export interface MilkRule {
  from?: string;
  until?: string;
  day: string;
  most: string;
  price: string;
}

export interface Vessel {
  name: string;
  at: string;
  size: string;
  fill_line: string;
  milk?: 'heated' | 'raw';
  kind?: 'bucket' | 'heap' | 'apart';
}

export interface Container {
  kind: 'can';
  size: string;
  count: string;
  without_lid?: string;
}

export interface Water {
  place: string;
  kind: 'tap-chlorinated' | 'river' | 'tank' | 'rain' | 'well';
  price_per_can: string;
}

export interface Labour {
  day: string;
  hours: string;
  meeting_day_hours?: string;
  other_day_hours?: string;
}

export interface Price {
  item: string;
  pack: string;
  price: string;
}

export interface StockItem {
  item: string;
  amount: string;
  made_on?: string;
}

export interface Produce {
  crop: string;
  price: string;
  per: string;
}

export interface Preparation {
  recipe: string;
  amount: string;
  by: string;
  until?: string;
  keeps: string;
}

export interface Absence {
  farm: string;
  on: string;
}

export interface Farm {
  code: string;
  place: string;
  method: 'knapsack' | 'leafy-branch' | 'can';
  mix_rate?: string;
  cap?: string;
  can: string;
  sprayer?: string;
  borrows_sprayer_of?: string;
  sprayer_last_held?: string;
  trial_plot?: boolean;
  fields: FieldOfFarm[];
}

export interface FieldOfFarm {
  crop: string;
  area: string;
  sowing: 'direct' | 'nursery' | 'tuber' | 'cutting';
  sown_on: string;
  nursery_on?: string;
  seed?: 'own' | 'bought' | 'dressed';
  harvest_after: string;
  own_count?: string;
  emerged_on?: string;
  flower_or_swelling_on?: string;
  first_fruit_on?: string;
  seed_mass?: string;
  method?: 'round-stem';
  per_plant?: string;
  spacing?: string;
}

export interface BatchForecast {
  stage: string;
  recipe?: string;
  milk?: 'raw' | 'heated';
  start?: string;
  amount?: string;
  air?: string;
  place?: string;
  readings?: Reading[];
  months?: MonthMean[];
  station?: string;
  altitude?: string;
  on?: string;
  hour?: string;
  pages?: boolean;
  svg?: boolean;
}

export interface BatchKeep {
  serum: string;
  molasses: string;
  brix?: string;
  bottle?: string;
  headspace?: string;
  on?: string;
  test_again?: string;
  pages?: boolean;
}

export interface BatchRead {
  batch: string;
  on?: string;
  half?: 'morning' | 'afternoon';
  ph?: string;
  scale?: 'half-strip' | 'third-strip' | 'meter';
  set?: 'yes' | 'no';
  liquid?: 'clear' | 'milky';
  smell?: 'clean-sour' | 'sweet' | 'putrid' | 'other';
  surface?: 'clear' | 'white-film' | 'coloured-mould' | 'gas';
  temperature?: string;
  device: string;
  clock: string;
  pages?: boolean;
}

export interface BatchShow {
  batch: string;
  pages?: boolean;
  svg?: boolean;
}

export interface CompostList {
  pages?: boolean;
}

export interface CompostLog {
  built: string;
  readings: HeapReading[];
  ratio?: string;
  ash_first?: string;
  ash_last?: string;
  pages?: boolean;
}

export interface HeapReading {
  date: string;
  celsius?: string;
  turned?: 'yes' | 'no';
  height?: string;
}

export interface CompostMix {
  put?: string[];
  add?: string[];
  ingredients?: HeapIngredient[];
  ratio?: string;
  moisture?: string;
  heap?: string;
  pages?: boolean;
}

export interface HeapIngredient {
  name: string;
  amount?: string;
  at_least?: string;
  at_most?: string;
  price?: string;
  nitrogen?: string;
  ratio?: string;
  moisture?: string;
  density?: string;
}

export interface CompostTurns {
  built: string;
  pages?: boolean;
}

export interface DoseArea {
  side?: string[];
  diagonal?: string;
  corner?: string[];
  point?: string[];
  noise?: string;
  paced?: string[];
  taped?: string;
  paces?: string;
  pages?: boolean;
}

export interface DoseBucket {
  bottom?: string;
  top?: string;
  height?: string;
  wider_below?: boolean;
  pour?: string[];
  volume?: string[];
  depth?: string[];
  step?: string;
  mark?: string;
  parts?: string;
  pages?: boolean;
}

export interface DoseHarvest {
  crop: string;
  last_use: string;
  stage: 'before-flowering' | 'from-flowering' | 'after-first-picking';
  method: 'knapsack' | 'leafy-branch' | 'can' | 'round-stem';
  on: 'leaves' | 'soil';
  strength: string;
  eaten?: 'raw' | 'cooked';
  farm?: string;
  nth?: string;
  pages?: boolean;
}

export interface DoseMix {
  water: string;
  cap?: string;
  strength: string;
  reading?: 'added-to' | 'in-total';
  farm?: string;
  pages?: boolean;
}

export interface DosePlot {
  size: string;
  strength: string;
  rate?: string;
  used?: string[];
  area?: string;
  syringe_step?: string;
  farm?: string;
  pages?: boolean;
}

export interface DoseSoak {
  crop: string;
  mass: string;
  seed_is: 'own' | 'bought' | 'dressed';
  strength: string;
  sowing?: 'direct' | 'nursery' | 'tuber' | 'cutting';
  farm?: string;
  nth?: string;
  pages?: boolean;
}

export interface DoseSprayer {
  by: 'area' | 'time' | '128th-acre' | 'flow' | 'rate';
  strength: string;
  run?: string[];
  plot?: string;
  cover?: string;
  catch?: string;
  walk?: string;
  swath?: string;
  rate?: string;
  method?: 'knapsack' | 'leafy-branch' | 'can';
  usual?: string;
  field?: string;
  tank?: string;
  cap?: string;
  nozzle?: string;
  pressure?: string;
  farm?: string;
  pages?: boolean;
}

export interface GroupMeeting {
  on?: string;
  pages?: boolean;
}

export interface GroupMembers {
  pages?: boolean;
}

export interface JournalAdd {
  kind: string;
  on?: string;
  body: Record<string, unknown>;
  replaces?: string[];
  device: string;
  clock: string;
}

export interface JournalAnswer {
  question: string;
  take: string;
  device: string;
  clock: string;
}

export interface JournalCompose {
  lines: string[];
  count: string;
  crc: string;
  packed: string;
}

export interface JournalForget {
  member: string;
  device: string;
  clock: string;
}

export interface JournalList {
  kind?: string;
  about?: string;
  last?: string;
  pages?: boolean;
}

export interface JournalLost {
  lost: string;
  last_note?: string;
  device: string;
  clock: string;
}

export interface JournalPack {
  names?: boolean;
}

export interface JournalRows {
  kind: string;
  rows: JournalRow[];
  pages?: boolean;
  device: string;
  clock: string;
}

export interface JournalRow {
  id?: string;
  on?: string;
  body: Record<string, unknown>;
}

export interface JournalSplit {
  file: string;
}

export interface JournalStrike {
  events: string[];
  why?: string;
  device: string;
  clock: string;
}

export interface JournalTable {
  kind: string;
}

export interface JournalUnpack {
  count: string;
  crc: string;
  text: string;
}

export interface NutrientBalance {
  crop: string;
  area: string;
  harvest: string;
  compost?: string;
  manure?: string;
  manure_is?: 'cattle-manure' | 'goat-manure' | 'hen-manure' | 'broiler-litter';
  serum?: string;
  farm?: string;
  nth?: string;
  pages?: boolean;
}

export interface ProgrammeAssign {
  programme: Programme;
  groups: GroupPlans[];
  not_planned?: string[];
  pages?: boolean;
}

export interface Programme {
  programme: ProgrammeHead;
  trainers: Trainer[];
  fixed?: FixedDay[];
  lorry?: Lorry;
}

export interface ProgrammeHead {
  name: string;
  worth_moving?: string;
  groups?: string[];
}

export interface Trainer {
  name: string;
  days: string[];
  visits_a_day?: string;
}

export interface FixedDay {
  group: string;
  day: string;
}

export interface Lorry {
  trip: string;
  holds: string;
  can: string;
  day?: string;
  on?: string[];
  from?: string;
  until?: string;
  trips_a_day?: string;
  keeping?: string;
}

export interface GroupPlans {
  group: string;
  season: string;
  currency: string;
  from: string;
  to: string;
  first_start: string;
  farms: string;
  fields: string;
  acres: string;
  now: string;
  days: GroupDay[];
  with_solver?: boolean;
}

export interface GroupDay {
  day: string;
  cost: string;
  bound: string;
  gap: string;
  least_short: boolean;
  short_ml: string;
  guess_ml: string;
  batches: string;
  first_start?: string;
  made_ml: string;
  needs: GroupNeed[];
  molasses: DatedNeed[];
  handed_over?: HandedOver;
}

export interface GroupNeed {
  item: string;
  unit: string;
  amount: string;
  in_hand: string;
}

export interface DatedNeed {
  on: string;
  ml: string;
}

export interface HandedOver {
  gap: string;
  least_short: boolean;
  better: boolean;
}

export interface ProgrammeCheck {
  programme: Programme;
  groups: string[];
  currencies?: string[];
}

export interface ProgrammeGroup {
  group: string;
  season: Record<string, unknown>;
  days: string[];
  method?: 'dynamic-programme' | 'exact';
}

export interface SeasonChange {
  season?: Record<string, unknown>;
  method?: string;
  pages?: boolean;
  was: Record<string, unknown>;
  on?: string;
  announced_until?: string;
  failed?: string[];
}
