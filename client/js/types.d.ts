// Types of what passes between the modules. Those of the API come from its description, so that the page is checked
// against it; `npm --prefix tests/client run describe` writes them.
import type {components} from 'gaugerake-answers';

type Schemas = components['schemas'];

declare global {
  type Measure = Schemas['Measure'];
  /** A quote as the page asks for it: whole, so that each of its parts is there. */
  type Quote = Schemas['QuoteAnswer'] & Required<Pick<Schemas['QuoteAnswer'], QuotePart>>;
  type QuotePart = 'readiness' | 'quantities' | 'order' | 'pour_plan' | 'return_times';
  type Order = Schemas['Quantities'];
  type Totals = Schemas['Totals'];
  type CurvePoint = Schemas['CurvePoint'];
  type OrderLine = Schemas['OrderLine'];
  type PackOnSale = Schemas['PackOnSale'];
  type Shortage = Schemas['Shortage'];
  type Layer = Schemas['LayerAnswer'];
  type Room = Schemas['RoomAnswer'];
  type PourPlan = Schemas['PourPlan'];
  type PourPlanAnswer = Schemas['PourPlanAnswer'];
  type Pour = Schemas['Pour'];
  type Mix = Schemas['Mix'];
  type MixMinutes = Schemas['MixMinutes'];
  type Times = Schemas['ReturnTimes'];
  type Step = Schemas['TimedStep'];
  type ReturnTime = Schemas['ReturnTime'];
  type Deadline = Schemas['Deadline'];
  type Span = Schemas['Span'];
  type Readiness = Schemas['Readiness'];
  type ReadinessAnswer = Schemas['ReadinessAnswer'];
  type Check = Schemas['Check'];
  type Bounds = Schemas['Bounds'];
  type Working = Schemas['Working'];
  type Systems = Schemas['Systems'];
  type FloorSystem = Schemas['FloorSystem'];
  type Comparison = Schemas['Comparison'];
  type ComparedChoice = Schemas['ComparedChoice'];
  type RefusedChoice = Schemas['RefusedChoice'];
  type StartSearch = Schemas['StartSearchAnswer'];
  type JudgedStart = Schemas['JudgedStart'];
  type Problem = Schemas['Problem'];
  type Fault = {pointer?: string | null; code?: string; detail: string; seen?: unknown; hint?: string | null};
  /** An assumption, a caution, or something missing. */
  type Note = {code: string; text: string; pointer: string; value?: unknown; everyday?: boolean};

  /** A job as it is typed or echoed; each part may be left out. */
  type Job = {
    system?: string;
    rooms?: any[];
    slab?: {poured?: string; age?: string};
    air?: object;
    work?: any;
    order?: any;
    [part: string]: unknown;
  };
  type Units = 'us' | 'si';
  /** What the browser keeps of the form, and what a link carries. */
  type Typed = {units?: Units; job: Job; open?: boolean[]; id?: string; left?: string};
  /** A job of the list; its rooms are those of its last quote. */
  type KeptJob = {id: string; at: string; isOpen: boolean; typed: Typed; rooms?: {name: string; area: Measure}[]};
  type KeptQuote = {body: Quote; units?: Units; at: string; id?: string};

  /** A control or another part of the page: one type has what each of them has, and the page's own HTML says which it is. */
  type Field = HTMLInputElement & {
    options: HTMLOptionsCollection;
    selectedIndex: number;
    open: boolean;
    content: DocumentFragment;
    add: (option: HTMLOptionElement) => void;
  };
  type Filled = {field: Field; pointer: string; value: unknown};

  type Trouble = 'offline' | 'busy' | 'broken' | 'closed' | 'refused' | 'problem' | 'overtaken';
  type Answered<Body> = {body: Body; trouble?: undefined; words?: undefined; after?: undefined; problem?: undefined};
  type Failed = {body?: undefined; trouble: Trouble; words: string; after?: number; problem?: Problem};
  type Outcome<Body> = Answered<Body> | Failed;

  /** Modules that come only when they are wanted, by their place in the js folder. */
  interface LateModules {
    'quote/access.js': typeof import('./quote/access.js');
    'quote/back.js': typeof import('./quote/back.js');
    'quote/crew.js': typeof import('./quote/crew.js');
    'quote/corners.js': typeof import('./quote/corners.js');
    'quote/deadline.js': typeof import('./quote/deadline.js');
    'quote/edges.js': typeof import('./quote/edges.js');
    'quote/findings.js': typeof import('./quote/findings.js');
    'quote/faults.js': typeof import('./quote/faults.js');
    'quote/mixes.js': typeof import('./quote/mixes.js');
    'quote/rows.js': typeof import('./quote/rows.js');
    'quote/sides.js': typeof import('./quote/sides.js');
    'shared/hand.js': typeof import('./shared/hand.js');
    'shared/readings.js': typeof import('./shared/readings.js');
    'quote/opening.js': typeof import('./quote/opening.js');
    'quote/steps.js': typeof import('./quote/steps.js');
    'quote/working.js': typeof import('./quote/working.js');
    'quote/chosen.js': typeof import('./quote/chosen.js');
    'quote/marks.js': typeof import('./quote/marks.js');
    'shared/drawings/plan.js': typeof import('./shared/drawings/plan.js');
    'shared/drawings/timetable-days.js': typeof import('./shared/drawings/timetable-days.js');
    'shared/drawings/shortage.js': typeof import('./shared/drawings/shortage.js');
  }
  /** A module that came late, or why it did not come. */
  type Loaded<Module> =
    {module: Module; words?: undefined} | {module?: undefined; words: string} | {module?: undefined; words?: undefined};
  type PlanModule = Loaded<LateModules['shared/drawings/plan.js']>;
  type DeadlineModule = Loaded<LateModules['quote/deadline.js']>;
  /** What a quote needs beyond the least one's. */
  type FindingsModule = Loaded<LateModules['quote/findings.js']>;
  type CalendarModule = LateModules['shared/drawings/timetable-days.js'];
  type Extras = {plans: PlanModule; days: Loaded<CalendarModule>; due: DeadlineModule; found: FindingsModule};
  type WorkingModule = LateModules['quote/working.js'];

  type PourSide = 'left' | 'right' | 'bottom' | 'top';
  type MarkAt = {mix: number; at: number};
  /** A layer that is poured; each mark has its low, likely and high place in metres. */
  type PouredLayer = {
    id: string;
    name: string;
    parts: {room: number; first: number; last: number; marks: {mix: number; at: number[]}[]}[];
  };
  type PlannedEdge = {room: number; mix: number; low: number; likely: number; high: number};
  /** Where an edge stands: the room's number in the job, and metres along its way. */
  type SeenEdge = {room: number; at: number};
  /** How far a layer has come: mixes emptied, the edge as tapped, as measured, mixes brought, the first mix begun. */
  type PourState = {
    mixes: number;
    edge: SeenEdge | null;
    measured: (SeenEdge & {mixes: number; time: string}) | null;
    stock: number | null;
    began: string | null;
  };
  type PourRoom = {name: string; length: number; exact: unknown; side: PourSide | null; drawn: Room};
  type PourProgress = Schemas['PourProgressAnswer'];
  /** Of an answer what the page shows; no price of it is kept. */
  type KeptAnswer = Pick<
    PourProgress,
    'over' | 'mixes_left' | 'ends' | 'stop_at' | 'advice' | 'cadence' | 'coverage' | 'finish'
  > & {to: string; layer: string; time: string; mixes: number; cautions: string[]};
  type KeptPour = {
    key: string;
    units: Units;
    job: Job;
    title: string;
    rooms: PourRoom[];
    layers: PouredLayer[];
    cadence_s: number;
    layer: number;
    states: Record<string, PourState>;
    past: {layer: number; state: PourState; kind?: string}[];
    answers: KeptAnswer[];
    /** Those of its plan, which stand while nothing is judged. */
    cautions: string[];
    isPoured: boolean;
    /** What the layers are called, by their ids. */
    names: Record<string, string>;
  };

  type Attributes = Record<string, unknown>;
  type Child = Node | string | number | null | undefined | false | Child[];
  type Column = {name: string; look: string | null};
  type FieldLink = (pointer: string | null | undefined, words: string) => Node | null;
  type NoteTest = (note: Note) => boolean;

  /** A point of a drawing of the answer, in metres. */
  type Point = number[];
  type Ply = {look: string; name: string; detail: string};
  /** The timetable in hours from the start; `zero` is the instant of the start, where one is said. */
  type Chart = {
    spans: {from: number; until: number; cured: number | null; name: string}[];
    returns: {at: number; early: number; name: string}[];
    due: number | null;
    end: number;
    zero: number | null;
    open: number[][];
    instants: string[];
  };
  /** Where hours lie in a drawing, and how large it is. */
  type Frame = {x: (hours: number) => number; width: number; height: number};
  type MixEntry = {mix: Mix; title: string; stop: string};

  /** What the page does for the quote that is shown. */
  type Actions = {
    print: () => void;
    /** Shows the working, at a figure where one is named, or hides it; null where a quote stands as it was made. */
    working: ((figure?: string) => unknown) | null;
    /** The module that writes the working, while it is shown. */
    writer?: WorkingModule;
    link: (quote: Quote) => string;
    fieldLink: FieldLink;
  };
  /** What goes out: a job, with the slab alone while it has no floor. */
  type Question = {job: Job; isWhole: boolean; units: Units; isExplained: boolean};
  type Listeners = {
    form: Field;
    answer: Field;
    left: Set<Element>;
    soon: (milliseconds?: number) => void;
    ask: () => Promise<unknown>;
    back: () => unknown;
    switchUnits: () => unknown;
  };
}
