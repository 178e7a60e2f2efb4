// SPDX-License-Identifier: MIT
// The shapes of what the page's script hands about: the program's answers, what the browser keeps, what hands ask for. They are for
// `tsc --checkJs` alone, which tests/outside runs over the script: no page and no program reads this file.

// What may stand in a page.

type Inside = Sketch | string | null | undefined | false | Inside[];
/** What an element is to be, or a text where it has no name; `node` is what became it. */
interface Sketch { tag: string; has: Record<string, string>; inside: Sketch[]; words: string; node: any; placed: boolean }
type Attributes = Record<string, string | number | boolean | null | undefined>;
/** What a button or a form says of itself: its `data-` attributes. */
type Data = Record<string, string>;

// The program's answers.

type Level = "stop" | "warn" | "note";
interface Mend { path: string; eighths?: number; typed?: string; words: string; short: string }
interface Finding {
  level: Level; id?: string; about?: string; text: string; help: string; path?: string | null; measured?: string | null; allowed?: string | null;
  file?: string | null; line?: number | null; column?: number | null; written?: string | null;
  mend?: Mend | null; sheet?: { path: string; typed: string; words: string } | null;
  /** A typed value that is not used, by its field's way; whether the words begin with a name of the maker's. */
  letGo?: string; named?: boolean;
}
interface Option { value: string; label: string }
/** One field of a form. */
interface Row {
  path: string; label: string; about?: string | null; value: string; given: boolean; needed: boolean; usual: string;
  takes: "length" | "number" | "text" | "choice" | "sheet" | "colour"; units?: string; range?: string; exact?: string;
  choices?: Option[]; frees?: boolean; differs?: string;
}
interface KindOffer { kind: string; label: string; about: string }
interface EdgeForm { free: Option[]; cuts: Option[]; list: { way: string; rows: Row[] }[] }
/** A page, a spine, a cover, an insert. */
interface Entry {
  way: string; kind: string; label: string; about: string; rows: Row[]; more: Row[]; edges?: EdgeForm | null; picture?: number; shows?: string;
  outline?: { way: string; file?: string | null; there: boolean; used: boolean; rows: Row[] } | null;
}
/** All pages of a kind at once. */
interface Group { kind: string; label: string; sentence: string; pages: number[]; rows: Row[]; more: Row[] }
interface LikenessForm { way: string; file: string | null; there: boolean; used: boolean }
interface StockForm { name: string; way: string; looks: string; colour: string; used: boolean; sentence: string; rows: Row[]; pictures?: LikenessForm[] }
interface AlbumForms {
  title: string; handed: Row[]; units: string; sentence: string; top: Row[]; page: Row[]; pages: Entry[]; groups: Group[]; drawn: boolean; pictures: string[];
  open: string | null; spine: Entry; cover: Entry | null; panels: Row[] | null; inserts: Entry[];
  kinds: { page: KindOffer[]; insert: KindOffer[] }; stocks: StockForm[];
}
interface Fit { sentence: string; stopped: boolean; more: string[]; findings: Finding[]; section: string | null }
/** What fields are shown by: what is found of them; the stocks where there are some. */
interface Judging { fit: { findings: Finding[] }; album?: AlbumForms }
interface SheetLaid { name: string; picture: string; words: string; offcuts: string[] }
interface StockLaid { name: string; way: string; sheet: string; sentence: string; why: string | null; sheets: SheetLaid[] }
interface Sheets { sentence: string; line: string; proven: boolean; printed_first?: boolean; counts: number; stocks: StockLaid[] }
interface Take { sentence: string; names: string[]; formats: string[]; command: string | null; makers?: string[]; withheld?: boolean }
interface Part { id: string; kind: string; size: string; count: number; stock: string; scores: number; used: string }
interface PartList { sentence: string; parts: Part[] }
interface Posed { picture: string; words: string }
interface Folds { closed: string | null; laid: Posed | null; steps: (Posed & { about: string })[]; parts: string[] }
interface Sold { name: string; way: string; rows: Row[] }
interface Terms { selling: Row[]; packs: Sold[]; supplies: Sold[]; unpacked: string[]; unpriced: string[] }
interface Table { caption: string; head: string[]; rows: string[][] }
interface Block extends Partial<Table> { words?: string; heading?: string; list?: string[]; picture?: string; shows?: string }
interface Section { id: string; heading: string; blocks: Block[] }
interface Lying { way: string; name: string; rows: Row[]; said: string | null }
interface DrawerForm {
  name: string; own: boolean; names: string[]; text: string | null; sentence: string; editable: boolean;
  stocks: { name: string; way: string; sheets: Lying[] }[]; may: string[]; as: string; left: Table | null;
}
interface SettingGroup { key: string; title: string; rows: Row[] }
interface MachineForm {
  findings: Finding[]; groups: SettingGroup[]; measured: { rows: Row[]; findings: Finding[]; text: string | null };
}
interface Offer { label: string; rows: Row[]; paper: string | null }
/** A kit of a batch, or a group of a class. */
interface KitForm {
  way: string; name: string; album: string; sentence: string; rows: Row[]; changes: Row[]; papers: Sold[];
  choice?: { rows: Row[]; kinds: KindOffer[]; of: Entry[] } | null;
}
interface GroupForm extends KitForm { sheets: Row[]; machine: { row: Row; rows: Row[] }; handed: Row[] }
type ClassForm = Pick<KitForm, "way" | "name" | "album" | "rows" | "changes" | "papers">;
interface BatchForms {
  title: string; units: string; sentence: string; top: Row[]; spares: Row[]; handed: Row[]; kits: KitForm[]; class: ClassForm | null;
  offers: Record<string, Offer[]>; terms: Terms;
}
interface Work {
  text: string; notes?: string[]; fit: Fit; machine: MachineForm; sheets: Sheets | null; take: Take; drawer: DrawerForm;
  tables: Section[] | null; likenesses?: Record<string, string>; other?: undefined; unread?: undefined; refused?: undefined;
}
interface AlbumWork extends Work { album: AlbumForms; batch?: undefined; folds: PartList; terms: Terms }
interface BatchWork extends Work { batch: BatchForms; album?: undefined; folds?: undefined; terms?: undefined }
/** What is seen of an album, before the rest is known. */
interface FirstSeen {
  likenesses?: Record<string, string>;
  album: { open: string | null; pictures: string[]; pages: { kind: string; picture: number; shows: string }[] };
}
/** A file that can't be read. */
interface Unread {
  unread: true; text: string; findings: Finding[]; other?: boolean; kind?: string; missing?: string[]; album?: undefined; batch?: boolean;
  fit?: undefined; sheets?: undefined; notes?: undefined; refused?: undefined; likenesses?: undefined;
}
interface Refusal { refused: true; field: string; findings: Finding[]; text?: undefined; album?: undefined; batch?: undefined; other?: undefined }
type Shown = AlbumWork | BatchWork;
type View = Shown | Unread;
interface OtherSize { saves: boolean; words: string; counts: string; width: number; height: number }
interface NumberAt { path: string; name: string; size: string; x: number; y: number }
interface PageDrawn {
  way: string; folded: string | null; old?: boolean;
  pieces: { name: string; width: number; height: number; picture: string; numbers: NumberAt[] }[];
}
interface Told { text: string; under: Told[] }
interface Compared { trouble?: string; told: Told[]; sheets: Sheets | null; findings: Finding[] }
interface Example { name: string; title: string; about: string; text: string; picture: string }
interface Start {
  file: (LaidFile & { batch: boolean; files: LaidFile[] }) | null; drawer: string; cutter: string; measured: string;
  cutters: { name: string; about: string; text: string }[]; starters: Data; examples: Example[];
  kinds: { page: KindOffer[]; spine: KindOffer[]; cover: KindOffer[]; insert: KindOffer[] }; sheets: Option[];
}

// What the page holds.

interface Pictures { open?: string | null; pictures?: string[]; pages?: Entry[]; parts?: PartList; section?: string | null; folds?: Folds }
interface Question { where: string; words: string; yes: string; does: string; of?: string }
interface State {
  start: Start | null; starting: boolean; view: View | null; first: FirstSeen | null; text: string; notes: string[]; chosen: number; at: number; together: boolean; good: Pictures | null;
  drawn: PageDrawn | null; parts: Record<string, PageDrawn>; place: number; newInsert: string; newChange: Data; wrong: { where: string; words: string } | null;
  folds: Folds | null; oldSheets: Sheets | null; sizes: { sentence: string; sizes: OtherSize[] } | null; looking: string; gone: boolean;
  asks: Question | null; opened: string; failed: string; moved: string; waiting: number;
}
/** What is shown while an album, a batch, or either lies on the table and can be read. */
type OfAlbum = Omit<State, "view" | "start"> & { view: AlbumWork; start: Start };
type OfBatch = Omit<State, "view" | "start"> & { view: BatchWork; start: Start };
type OfEither = Omit<State, "view" | "start"> & { view: Shown; start: Start };
interface Draft { typed: string; field: string; findings: Finding[] }

// What hands ask for.

interface Wanted {
  do: string; path?: string; typed?: string; list?: string; at?: number; from?: number; to?: number; kind?: string; name?: string; names?: Data;
  folder?: string[]; width?: number; height?: number; eighths?: number; units?: string; on?: string; cut?: string; album?: string; like?: string;
  of?: string; price?: string; stock?: string; sheet?: string; count?: string;
}
/** What waits to be done in a file, under its key. */
interface Waiting { key: string; album: number; wanted: Wanted }
interface Queued { key: string; album: number; wanted: Wanted | null; what: string; then: (() => unknown) | null }
type Orphaned = (taken: Waiting[], before?: boolean) => void;

/** What a question says besides what it is about. */
interface Asking { change?: Wanted; page?: number; part?: string; file?: string; formats?: string[]; sheet?: string; against?: GivenFile | null; versions?: GivenFile[] }
/** What buttons do, by their name; what forms do. */
type Doing = Record<string, (data: Data) => unknown>;
type Submitting = Record<string, (form: HTMLFormElement) => unknown>;

// What the browser keeps.

interface GivenDrawing { name: string; text: string }
interface GivenFile { name: string; text?: string; kind?: string; drawings?: GivenDrawing[]; called?: string; files?: GivenFile[] }
/** A file that the program was opened with. */
interface LaidFile { name: string; text: string; kind?: string; drawings: GivenDrawing[] }
interface KeptFile {
  id: number; name: string; origin: string; text: string; title?: string; batch?: boolean; kind?: string; drawings: Data; origins: Data;
  did: string[];
}
/** An album or a batch as it stood once, with the files that it needed then; `when` is a day, and a time where it is known. */
interface KeptVersion {
  key: string; album: number; called: string; when: string; picture: string; name: string; text: string; drawings: Data;
  files: { name: string; kind?: string; text: string; drawings: Data }[];
}
/** A file that was brought in, and what it is. */
interface ReadFile { name: string; text: string; batch: boolean; kind: string | null }
/** How a file is put on the table. */
interface Opening { opened?: boolean; batch?: boolean; kind?: string | null; drawn?: GivenDrawing[]; fresh?: boolean }
interface Machine { name: string; trimmer: boolean }
interface Kept { albums: KeptFile[]; current: number; next: number; machine: Machine }
/** A step that can be taken back: of an album's text, of a file beside it, of the machine. */
type Step = { text: string; drawings: Data; setting?: undefined; file?: undefined }
  | { text: string; file: number; setting?: undefined; drawings?: undefined }
  | { setting: keyof Machine; value: string | boolean; text?: undefined; file?: undefined; drawings?: undefined };
interface Steps { past: Step[]; future: Step[] }
type Keep = typeof import("./keep.js");
interface NamedBytes { name: string; bytes: Uint8Array<ArrayBuffer>; zipped?: boolean }
