// The line to the engine: one message under way, the others wait their turn, and of those that wait in the
// same slot only the newest stays. A fault ends the engine and starts it anew; what waits then goes on.

const PATIENCE = 30_000;
const FAULTS = new Set(["engine_fault", "engine_dead", "engine_silent", "engine_restarted"]);

export class Line {
  constructor(onFault, onChange) {
    this.engine = null;
    this.waiting = [];
    this.busy = false;
    this.onFault = onFault;
    this.onChange = onChange;
  }

  get idle() {
    return !this.busy && !this.waiting.length;
  }

  connect(engine) {
    this.engine = engine;
    this.next();
  }

  // `work(engine)` runs when its turn comes; the promise gives its result, or undefined if a newer one took the slot.
  run(slot, work, { urgent = false } = {}) {
    return new Promise((resolve, reject) => {
      const job = { slot, work, resolve, reject, urgent };
      const place = slot === null ? -1 : this.waiting.findIndex((other) => other.slot === slot);
      if (place >= 0) {
        this.waiting[place].resolve(undefined);
        this.waiting[place] = job;
      } else if (urgent) {
        const behind = this.waiting.findIndex((other) => !other.urgent);
        this.waiting.splice(behind < 0 ? this.waiting.length : behind, 0, job);
      } else this.waiting.push(job);
      this.onChange();
      this.next();
    });
  }

  // Ask one thing: the value, or null where there is none, after the fault has been told. A problem that the
  // engine itself names is thrown.
  async call(op, args) {
    let patience;
    try {
      const late = new Promise((_, reject) => {
        patience = setTimeout(() => reject({ code: "engine_silent", path: "", params: { op } }), PATIENCE);
      });
      return await Promise.race([this.engine.call(op, args), late]);
    } catch (problem) {
      const given = problem?.code ? problem : { code: "engine_fault", path: "", params: { detail: String(problem?.stack ?? problem) } };
      if (!FAULTS.has(given.code)) throw given;
      this.onFault(op, given);
      await this.restart();
      return null;
    } finally {
      clearTimeout(patience);
    }
  }

  async restart() {
    try {
      await this.engine.restart();
    } catch (problem) {
      this.onFault("boot", problem);
    }
  }

  async next() {
    if (this.busy || !this.engine || !this.waiting.length) return;
    this.busy = true;
    const job = this.waiting.shift();
    try {
      job.resolve(await job.work(this));
    } catch (error) {
      job.reject(error);
    } finally {
      this.busy = false;
      this.onChange();
      this.next();
    }
  }
}
