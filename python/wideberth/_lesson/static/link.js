// The talk with the lesson: one question at a time, the newest; found again when it is lost.

const FIRST = 400, LONGEST = 5000;
/** Numbers of questions beside the newest one begin here. */
const BESIDE = 1e9;

export class Link {
  /** `heard` gets every answer to the newest question; `lost` whether there is nobody to ask. */
  constructor(heard, lost) {
    this.heard = heard;
    this.lost = lost;
    this.number = 0;
    this.beside = BESIDE;
    this.open = false;
    this.waits = FIRST;
    this.newest = null;
    this.connect();
  }

  connect() {
    const socket = new WebSocket(`${location.protocol === "https:" ? "wss" : "ws"}://${location.host}/lesson`);
    this.socket = socket;
    socket.onopen = () => {
      this.open = true;
      this.waits = FIRST;
      this.lost(false);
      if (this.newest) this.send();
    };
    socket.onmessage = event => {
      const message = JSON.parse(event.data);
      if (message.id === this.number || message.id === this.beside) this.heard(message);
    };
    socket.onclose = () => {
      this.open = false;
      this.lost(true);
      setTimeout(() => this.connect(), this.waits);
      this.waits = Math.min(LONGEST, this.waits * 2);
    };
  }

  /** Asks; whatever was asked before is no longer waited for. */
  ask(question) {
    this.newest = question;
    this.number += 1;
    this.asked = performance.now();
    if (this.open) this.send();
  }

  /** Asks what takes long, beside the newest question; false where there is nobody to ask. */
  askBeside(question) {
    this.beside += 1;
    if (this.open) this.socket.send(JSON.stringify({...question, id: this.beside}));
    return this.open;
  }

  send() {
    this.socket.send(JSON.stringify({...this.newest, id: this.number}));
  }
}
