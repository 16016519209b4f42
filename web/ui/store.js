// What outlives the page: projects and their diaries in IndexedDB, the reader's preferences in localStorage.
// A file opened from a disk may share its store with other files, so every name carries our prefix.

const BASE = "foamwright.projects";
const PREFERENCES = "foamwright.reader";
const DEVICE = "foamwright.device";
const TALLY = "foamwright.tally";
const LAYOUT = 2;

export class Store {
  static async open() {
    const base = await new Promise((resolve, reject) => {
      if (!globalThis.indexedDB) {
        reject(new Error("no IndexedDB"));
        return;
      }
      const wish = indexedDB.open(BASE, LAYOUT);
      const patience = setTimeout(() => reject(new Error("IndexedDB does not answer")), 4000);
      wish.onupgradeneeded = ({ oldVersion }) => {
        if (oldVersion < 1) {
          wish.result.createObjectStore("projects", { keyPath: "id" });
          wish.result.createObjectStore("notes");
        }
        if (oldVersion < 2) wish.result.createObjectStore("diary", { keyPath: ["project", "id"] });
      };
      wish.onsuccess = () => {
        clearTimeout(patience);
        resolve(wish.result);
      };
      wish.onerror = () => {
        clearTimeout(patience);
        reject(wish.error);
      };
    });
    base.onversionchange = () => base.close();
    return new Store(base);
  }

  constructor(base) {
    this.base = base;
  }

  // One transaction; done only when the browser says that it is on the disk.
  hold(names, mode, work) {
    return new Promise((resolve, reject) => {
      const deal = this.base.transaction(names, mode, mode === "readwrite" ? { durability: "strict" } : undefined);
      let value;
      deal.oncomplete = () => resolve(value);
      deal.onabort = () => reject(deal.error ?? new Error("aborted"));
      deal.onerror = () => reject(deal.error);
      work(deal, (found) => {
        value = found;
      });
    });
  }

  current() {
    return this.hold(["projects", "notes"], "readonly", (deal, give) => {
      deal.objectStore("notes").get("current").onsuccess = (event) => {
        const id = event.target.result;
        if (id === undefined) return;
        deal.objectStore("projects").get(id).onsuccess = (found) => give(found.target.result);
      };
    });
  }

  get(id) {
    return this.hold(["projects"], "readonly", (deal, give) => {
      deal.objectStore("projects").get(id).onsuccess = (event) => give(event.target.result);
    });
  }

  list() {
    return this.hold(["projects"], "readonly", (deal, give) => {
      deal.objectStore("projects").getAll().onsuccess = (event) =>
        give(event.target.result.map(({ id, name, saved, text }) => ({ id, name, saved, sound: typeof text === "string" })));
    });
  }

  // Put a project down. Where somebody else has put down a later one meanwhile, nothing is written and theirs comes back.
  async put(record, revision, becomeCurrent) {
    return this.hold(["projects", "notes"], "readwrite", (deal, give) => {
      const projects = deal.objectStore("projects");
      projects.get(record.id).onsuccess = (event) => {
        const there = event.target.result;
        if (there && there.revision !== revision) {
          give({ theirs: there });
          return;
        }
        projects.put({ ...record, revision: revision + 1 });
        if (becomeCurrent) deal.objectStore("notes").put(record.id, "current");
        give({ revision: revision + 1 });
      };
    });
  }

  makeCurrent(id) {
    return this.hold(["notes"], "readwrite", (deal) => deal.objectStore("notes").put(id, "current"));
  }

  // With its diary; both come back, so that they can be put down again.
  remove(id) {
    return this.hold(["projects", "diary"], "readwrite", (deal, give) => {
      const diary = deal.objectStore("diary");
      diary.getAll(ofProject(id)).onsuccess = (event) => {
        give(inOrder(event.target.result));
        diary.delete(ofProject(id));
        deal.objectStore("projects").delete(id);
      };
    });
  }

  diary(id) {
    return this.hold(["diary"], "readonly", (deal, give) => {
      deal.objectStore("diary").getAll(ofProject(id)).onsuccess = (event) => give(inOrder(event.target.result));
    });
  }

  // Entries are added and never written over; one that is there already stays as it is.
  addEntries(project, entries) {
    const order = Date.now();
    return this.hold(["diary"], "readwrite", (deal) => {
      const diary = deal.objectStore("diary");
      entries.forEach((entry, index) => {
        diary.getKey([project, entry.id]).onsuccess = (event) => {
          if (event.target.result === undefined) diary.add({ project, id: entry.id, order: order + index / 100_000, entry });
        };
      });
    });
  }

  // The next number of this device. What the store or localStorage remembers, the larger counts: one may be emptied without the other.
  count(least) {
    return this.hold(["notes"], "readwrite", (deal, give) => {
      const notes = deal.objectStore("notes");
      notes.get("tally").onsuccess = (event) => {
        const next = Math.max(event.target.result ?? 0, least) + 1;
        notes.put(next, "tally");
        remember(TALLY, next);
        give(next);
      };
    });
  }
}

// All keys of one project: its id, then anything.
const ofProject = (id) => IDBKeyRange.bound([id], [id, []]);
const inOrder = (records) => records.sort((a, b) => a.order - b.order).map(({ entry }) => entry);

function remember(name, value) {
  try {
    localStorage.setItem(name, String(value));
  } catch {
    // then the store alone remembers
  }
}

function remembered(name) {
  try {
    return localStorage.getItem(name);
  } catch {
    return null;
  }
}

let tag = null;

// A name for this device, drawn by chance once.
export function device() {
  tag ??= remembered(DEVICE);
  if (!/^[a-z0-9]{1,12}$/.test(tag ?? "")) {
    tag = [...crypto.getRandomValues(new Uint8Array(8))].map((one) => (one % 36).toString(36)).join("");
    remember(DEVICE, tag);
  }
  return tag;
}

let counted = 0;

// How far this device has counted. Where there is no store, it is counted here.
export function tally({ on = false } = {}) {
  counted = Math.max(counted, Number(remembered(TALLY)) || 0);
  if (on) remember(TALLY, (counted += 1));
  return counted;
}

export function preferences() {
  try {
    const kept = JSON.parse(localStorage.getItem(PREFERENCES));
    return kept && typeof kept === "object" ? kept : {};
  } catch {
    return {};
  }
}

export function keepPreferences(wishes) {
  try {
    localStorage.setItem(PREFERENCES, JSON.stringify(wishes));
  } catch {
    // a browser that keeps nothing still works
  }
}

export function newId() {
  return globalThis.crypto?.randomUUID?.() ?? `p${Date.now()}-${Math.random().toString(36).slice(2)}`;
}
