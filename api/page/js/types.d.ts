/**
 * What the page's modules hand each other. What the server takes and gives is made
 * from its own description (openapi.d.ts, written by .ci/page/check); here stands
 * only what the phone keeps, and what screens and forms are made of. No browser
 * loads this file.
 */

import type { components, paths } from "openapi";

type Schemas = components["schemas"];

// --- what the server takes and gives ------------------------------------------------

export type Device = Schemas["DeviceOut"];
export type Me = Schemas["MeOut"];
export type Role = Me["role"];
export type Aerator = Schemas["Aerator"];
export type Cohort = Schemas["Cohort"];
export type CohortState = Schemas["CohortInUnitResult"];
/** What was changed about a fish; its ends are points, as everywhere in the page. */
export type Correction = Omit<Schemas["Correction"], "snout_px" | "fork_px"> & {
  snout_px?: Point | null;
  fork_px?: Point | null;
};
export type Estimate = Schemas["EstimateResult"];
export type Charts = Schemas["UnitChartsResult"];
export type Plan = Schemas["UnitPlanResult"];
export type Choice = Plan["choices"][number];
/** A figure of a chart; what is not finite is null. */
export type EstimateOf = Pick<Estimate, "value" | "low" | "high">;
export type ChartAxis = {
  min: number;
  max: number;
  unit: string;
  ticks: { at: number; label: string }[];
};
/** Points are [x, y], [x, low, high] of a band, [from, to, y] of a bar, [x, y, low, high] of a dot. */
export type Mark = {
  kind: "band" | "line" | "level" | "bar" | "dot";
  series: string;
  points: number[][];
};
/** A figure that is told when it is touched. */
export type ChartStop = { x: number; y: number; text: string };
export type ChartSpec = {
  title: string;
  x: ChartAxis;
  y: ChartAxis;
  marks: Mark[];
  stops: ChartStop[];
  legend: { kind: string; label: string }[];
  /** The figure that is told first. */
  start?: number;
};
export type Due = Schemas["DueResult"];
export type Farm = Schemas["FarmOutlookResult"];
export type FarmUnit = Farm["units"][number];
export type FarmFish = FarmUnit["fish"][number];
export type Fish = Schemas["MeasuredFish"];
export type Flag = Schemas["Flag"];
export type Lens = Schemas["LensProfile"];
export type Measurement = Schemas["PhotoMeasurement"];
export type NowWater = Schemas["NowResult"];
export type Outlook = Schemas["UnitOutlookResult"];
export type PhotoResult = Omit<Schemas["PhotoOut"], "corrections"> & {
  corrections: Correction[];
};
export type PhotoSettings = Schemas["PhotoChoices"];
export type Plate = Schemas["SizeDatesResult"];
export type Problem = Schemas["Problem"];
export type SampleEstimate = Schemas["SampleAnswer"];
/** A sampling as it is sent: what has a default may be left out. */
export type SampleBody = Partial<Omit<Schemas["SampleIn"], "nets">> & {
  nets: Partial<Schemas["SampleIn"]["nets"][number]>[];
};
export type SampleResult = Schemas["SampleOut"];
export type FitAnswer = Schemas["FitOut"];
export type StockFigure = Schemas["StockFigure"];
/** An entry that taught what is known of a stock. */
export type Taught = Schemas["StockOut"]["tellings"][number];
export type Stop = Schemas["OutageResultResult"];
export type Unit = Schemas["Unit"];
export type UnitState = Schemas["UnitStateAnswer"];

/** An entry of the book of any kind: what all have, and what only some have. */
export type Entry = Schemas["EntriesIn"]["entries"][number];
type KeysOf<U> = U extends unknown ? keyof U : never;
type Of<U, K extends PropertyKey> = U extends { [_ in K]?: infer V } ? V : never;
/** The same, to be asked for a field that only some kinds have. */
export type AnyEntry = { kind: Entry["kind"]; id: string; on: string } & {
  [K in Exclude<KeysOf<Entry>, "kind" | "id" | "on">]?: Of<Entry, K>;
};
export type GradeGroup = Schemas["GradeGroup"];

/** A figure that may not be there. */
export type Figure = number | null | undefined;
export type WeightUnit = "g" | "kg" | "oz" | "lb";
export type LengthUnit = "mm" | "cm" | "in";

// --- addresses ----------------------------------------------------------------------

type Json<A> = A extends { content: { "application/json": infer R } } ? R : null;
type Success<M> = M extends { responses: infer R }
  ? 200 extends keyof R
    ? Json<R[200]>
    : 201 extends keyof R
      ? Json<R[201]>
      : null
  : never;
type Lower = { GET: "get"; POST: "post"; PUT: "put"; DELETE: "delete"; PATCH: "patch" };
export type Method = keyof Lower;
/** An address with its placeholders filled in, which knows what it answers. */
export type Address<P extends keyof paths> = string & { [answered]: P };
declare const answered: unique symbol;
/** What an address answers to a method. */
export type Answer<P extends keyof paths, M extends Method = "GET"> = Success<
  paths[P][Lower[M]]
>;
/** What is sent with a request. */
export type Sent = {
  json?: unknown;
  form?: FormData;
  /** A part of a file. */
  part?: Blob;
  headers?: Record<string, string>;
};
export type Paths = keyof paths;
export type Listed = {
  [P in Paths]: Answer<P> extends { items: unknown[] } ? P : never;
}[Paths];
/** What was read, and whether it is the last answer that was kept. */
export type Read<T> = { data: T; stale: boolean };

// --- what the phone keeps -----------------------------------------------------------

export type State = "waiting" | "sending" | "measured" | "saved" | "refused" | "asked";
export type Told = {
  code: string;
  message: string;
  advice: string;
  details?: unknown[];
  confirm?: string | null;
};
/** What the server asks about one entry. */
export type Asked = {
  id: string;
  doubts: { code: string; message: string }[];
  slip: { code: string; message: string } | null;
  corrected: AnyEntry | null;
};
/** The same, or what the bounds of the outlook ask, as a screen shows it. */
export type Question = {
  messages: string[];
  codes: string[];
  slip: string | null;
  corrected: AnyEntry | null;
  confirm: string | null;
};
export type Bound = Schemas["BoundResult"];

type Sending = {
  created: number;
  state: State;
  error?: Told | null;
  /** How often the server failed at it. */
  failures?: number;
  /** What is asked about it, and the token of the answer that it is right. */
  question?: Question | null;
  confirm?: string | null;
};
/** In the tub or not; what the phone kept before knew of no tub. */
export type InTub = { in_water?: boolean; water_depth_mm?: number | null };
export type Choices = InTub & {
  print_scale: number;
  paper: Paper | null;
  lens: string | null;
};
export type Paper = NonNullable<PhotoSettings["paper"]>;
export type Photo = Sending &
  Choices & {
    key: string;
    kept: boolean;
    sample_id: string;
    net_id: string;
    name: string;
    species: string;
    cohort_id?: string;
    result: PhotoResult | null;
    settings: PhotoSettings | null;
    corrections: Correction[] | null;
  };
export type Picture = { key: string; type: string; bytes: ArrayBuffer };
export type Net = InTub & {
  id: string;
  fish: number | null;
  gross_g: number | null;
  tare_g: number | null;
  scale_division_g?: number | null;
  /** Of a net that came from the server: what no screen asks for, and its readings. */
  given?: Partial<SentNet>;
  readings?: number[] | null;
};
export type SentNet = Schemas["SampleIn"]["nets"][number];
/** What phones compare of a net, by the name that this phone gives it. */
export type NetState = {
  id: string;
  fish: number;
  gross_g: number | null;
  tare_g: number | null;
  in_water: boolean;
  water_depth_mm: number | null;
  scale_division_g: number | null;
  photos: string[];
};
/** A net that two phones changed meanwhile. */
export type NetClash = { id: string; ours: NetState; theirs: NetState };
export type Sample = Sending & {
  id: string;
  unit_id: string;
  unit_name: string;
  cohort_id: string;
  species: string;
  count_in_unit: number | null;
  count_in_unit_sd: number | null;
  date: string;
  ripe?: boolean;
  nets: Net[];
  edits: number;
  result: SampleResult | null;
  record_wanted: boolean;
  recorded: boolean;
  /** The nets that this phone last sent or got, by its own names. */
  sent?: NetState[];
  /** Of a sample that came from the server: what no screen asks for. */
  given?: Partial<SampleBody>;
  /** When it was taken back. */
  taken_back?: string | null;
  /** What another phone changed at the same time as this one, in words. */
  clashes?: string[];
};
/** What is written in the book: an entry, or a new version of a unit or cohort. */
export type Write = Sending & {
  id: string;
  method: Method;
  path: Address<Paths>;
  label: string;
  detail?: string;
  /** When the server had it, in milliseconds. */
  sent?: number;
} & (
    | { kind: "entry"; body: AnyEntry; answered?: boolean }
    | { kind: "unit"; body: Unit }
    | { kind: "cohort"; body: Cohort }
    /** A sample that is taken back. */
    | { kind: "sample"; body: { id: string; unit_id: string } }
  );
type Without<U, K extends PropertyKey> = U extends unknown ? Omit<U, K> : never;
/** The same before it is kept. */
export type WriteOf = Without<Write, "id" | "created" | "state">;
/** The next thing to send. */
export type Task = { store: Queued; key: string; run: () => Promise<void> };
/** Something on its way, as people see it. */
export type Item = {
  store: Queued;
  key: string;
  state: State;
  error?: Told | null;
  created: number;
  what: string;
  detail: string;
  link: string | null;
};
/** An entry of the book on its way. */
export type EntryWrite = Extract<Write, { kind: "entry" }>;
/** All units as last answered. */
export type FarmKept = { farm: Farm; asked: number; stale: boolean };
/** Fish in a unit; of those just stocked here the server knows nothing yet. */
export type HereFish = {
  cohortId: string;
  name: string;
  species: string;
  count: { value?: number | null; sd?: number | null };
  farm: FarmFish | null;
};
/** A unit on the first screen; one made here has no answer yet. */
export type Card = {
  id: string;
  name: string;
  unit: FarmUnit | null;
  fish: HereFish[];
  /** Those of today and those that wait, the newest first. */
  entries: EntryWrite[];
  /** How many have not reached the server. */
  waiting: number;
  due: Due[];
  /** What was fed here today and the answer does not know of, kg. */
  fedKg: number;
};
/** A field that the number keys fill. */
export type PadField = Field & { name: PadName };
export type PadName = "feed_kg" | "fish_count" | "do_mg_per_l" | "temperature_deg_c";
/** A feed that one may mean, and of which day it is. */
export type FeedChoice = {
  key: "ration" | "rest" | "last";
  feed_kg: number;
  on: string;
};
export type PadKind = "feed" | "died" | "water";
/** What is written of a kind. */
export type BodyOf<K extends Write["kind"]> = Extract<Write, { kind: K }>["body"];
export type Stores = {
  photos: Photo;
  pictures: Picture;
  samples: Sample;
  writes: Write;
  /** `asked` is when it was asked for, in milliseconds. */
  answers: { path: string; data: any; asked?: number };
};
export type StoreName = keyof Stores;
/** The stores whose records are sent. */
export type Queued = "photos" | "samples" | "writes";

/** A cohort in a unit; one just stocked here has only its name and count. */
export type CohortHere = Partial<Omit<CohortState, "cohort" | "fish_count">> & {
  cohort: Cohort;
  fish_count?: { value?: number | null } & Partial<Omit<Estimate, "value">>;
  waiting?: boolean;
};

// --- elements and screens -------------------------------------------------------------

type Name<T extends string> = T extends `${infer N}.${string}` ? N : T;
export type HtmlOf<T extends string> = string extends T
  ? HTMLElement
  : Name<T> extends keyof HTMLElementTagNameMap
    ? HTMLElementTagNameMap[Name<T>]
    : HTMLElement;
export type SvgOf<T extends string> = string extends T
  ? SVGElement
  : Name<T> extends keyof SVGElementTagNameMap
    ? SVGElementTagNameMap[Name<T>]
    : SVGElement;
export type Child = Node | string | number | null | undefined | false | Child[];
type On<E, V> = (event: V & { currentTarget: E; target: E }) => unknown;
export type Attributes<E> = {
  onclick?: On<E, MouseEvent>;
  onchange?: On<E, Event>;
  oninput?: On<E, Event>;
  onsubmit?: On<E, SubmitEvent>;
  [name: string]: unknown;
};
/** [x, y] in pixels of the photo. */
export type Point = number[];
/** A rectangle: left, top, width, height. */
export type Box = [number, number, number, number];
/** A line of an outlook: its label, its figure, notes. */
export type Row = [string, string, ...(string | null | undefined)[]];
export type IconName = keyof typeof import("./icons.js").PATHS;
/** What tools work with: the photo as it is laid out, and the glass over it. */
export type PhotoTools = {
  stage: import("./stage.js").Stage;
  magnifier: import("./magnifier.js").Magnifier;
};
export type EndsCalled = (points: Point[]) => void;
export type PhotoScreen = import("./screens/photo.js").PhotoScreen;
/** What is done about a photo while it is shown. */
export type Tool = {
  letsChoose: boolean;
  panel: HTMLElement;
  open: () => void;
  close: () => void;
  update?: () => void;
  marks: (scale: number) => SVGElement[];
};

/** What a screen shows, see router.js. */
export type Shown = {
  title: string;
  body: Child;
  actions?: Child;
  back?: string;
  wide?: boolean;
  /** Whether it fills a wide window. */
  roomy?: boolean;
  /** Whether its picture has all the room there is. */
  full?: boolean;
  update?: () => unknown;
  close?: () => void;
};
export type Screen = { show: (params: any) => Promise<Shown> };

// --- looking through the camera -------------------------------------------------------

export type Corners = [Point, Point, Point, Point];
/** Markers and limits, as api/camera.py gives them. */
export type CameraTable = {
  codes: Record<string, string>;
  sheets: { paper: string; side_mm: number; centres_mm: Record<string, Point> }[];
  single: { id: number; side_mm: number };
  fits_mm: number;
  focal_over_diagonal: number;
  limits: Record<
    | "tilt_deg"
    | "side_px"
    | "blur_cells"
    | "blur_mm"
    | "contrast"
    | "clipped_code"
    | "clipped_share"
    | "dark_light"
    | "halved_from_px",
    number
  >;
};
/** A marker in a live picture; `black` and `white` are grey values. */
export type Seen = {
  id: number;
  corners: Corners;
  black: number;
  white: number;
  contrast: number;
};
/** What a live picture tells; null without a marker. */
export type Look = {
  width: number;
  height: number;
  ms: number;
  markers: Seen[];
  light: number;
  clipped: number;
} & Record<
  "side_px" | "tilt_deg" | "width_mm" | "blur_cells" | "blur_mm" | "contrast",
  number | null
>;
export type Hint = { word: string; values: Record<string, number>; good: boolean };
export type LiveFrame = { pixels: ArrayBuffer; width: number; height: number };

// --- texts ----------------------------------------------------------------------------

/** Texts and what is put between them; see fishmeasure/base/words/compiled.py. */
export type Pattern = (
  | string
  | { var: string }
  | { message: string }
  | {
      select: { var: string };
      variants: Record<string, Pattern>;
      default: string;
    }
)[];
export type Texts = Record<string, { value?: Pattern }>;

// --- schemas --------------------------------------------------------------------------

/** JSON Schema, as far as the server's records use it. */
export type JsonSchema = {
  title?: string;
  description?: string;
  type?: string;
  format?: string;
  enum?: string[];
  default?: unknown;
  anyOf?: JsonSchema[];
  required?: string[];
  properties?: Record<string, JsonSchema>;
  items?: JsonSchema;
  minimum?: number;
  maximum?: number;
  maxLength?: number;
  maxItems?: number;
  $ref?: string;
  $defs?: Record<string, JsonSchema>;
};
/** What api/forms.py has. */
export type FormSchemas = Record<
  "unit" | "cohort" | "photo" | "lens" | "device",
  JsonSchema
> & { entries: Record<string, JsonSchema>; most_weight_change: number };
/** How fields are made: what stands in them, where their words are. */
export type Made = {
  values?: Values;
  words?: string;
  prefix?: string;
  options?: Record<string, Option[]>;
};

// --- forms --------------------------------------------------------------------------

export type Option = { value: string; label: string };
export type FieldType =
  | "text"
  | "date"
  | "whole"
  | "number"
  | "percent"
  | "fish-weight"
  | "stock-weight"
  | "choice"
  | "check"
  | "lines";
export type Field = {
  name: string;
  label: string;
  type: FieldType;
  hint?: string | null;
  required?: boolean;
  options?: Option[];
  min?: number;
  max?: number;
  unit?: string;
  longest?: number;
  value?: unknown;
  bare?: boolean;
};
export type Input = HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement;
export type Wrong = { label: string; input: Input };
/** What was typed in a form, by the fields' names. */
export type Values = Record<string, any>;
export type FormOptions = {
  save: string;
  onsave: (values: any) => unknown;
  /** Sets of fields of which one must be filled in. */
  needs?: string[][];
};

/** A size group as it is typed. */
export type Group = {
  to_unit_id: string;
  fish_count?: number;
  fish_count_sd?: number;
  weight_kg?: number;
  mean_weight_g?: number;
};
/** Where a grading is made: its unit, all units, the state of the fish in it. */
export type GradingPlace = { unitId: string; units: Unit[]; states: CohortHere[] };
/** What a grading is compared with. */
export type GradingBook = {
  state?: CohortHere;
  rooms: Map<string, number | null>;
  names: Map<string, string>;
};
