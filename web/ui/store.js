// What outlives the page: projects in IndexedDB, the reader's preferences in localStorage.
// A file opened from a disk may share its store with other files, so every name carries our prefix.

const BASE = "foamwright.projects";
const PREFERENCES = "foamwright.reader";
const LAYOUT = 1;

export class Store {
  static async open() {
    const base = await new Promise((resolve, reject) => {
      if (!globalThis.indexedDB) {
        reject(new Error("no IndexedDB"));
        return;
      }
      const wish = indexedDB.open(BASE, LAYOUT);
      const patience = setTimeout(() => reject(new Error("IndexedDB does not answer")), 4000);
      wish.onupgradeneeded = () => {
        wish.result.createObjectStore("projects", { keyPath: "id" });
        wish.result.createObjectStore("notes");
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

  remove(id) {
    return this.hold(["projects"], "readwrite", (deal) => deal.objectStore("projects").delete(id));
  }
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
