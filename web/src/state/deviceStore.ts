// What this device keeps of its own. Browsers may forbid it, or have no room: the page goes on without.

export const deviceStore = {
  /** What was kept under a name; nothing where nothing is, or may be. */
  read(name: string): string | null {
    try {
      return localStorage.getItem(name);
    } catch {
      return null;
    }
  },

  /** False where the device would not keep it. */
  write(name: string, text: string): boolean {
    try {
      localStorage.setItem(name, text);
      return true;
    } catch {
      return false;
    }
  },

  /** Calls back when another page of this device wrote there. */
  onOthersWrite(name: string, call: () => void): void {
    addEventListener('storage', ({ key }) => {
      // Without a name, everything was cleared.
      if (key === name || key === null) call();
    });
  },

  /** Does something while no other page of this device does it; browsers know how over HTTPS and on this machine only. */
  async alone(name: string, action: () => void): Promise<void> {
    if (navigator.locks) await navigator.locks.request(name, action);
    else action();
  },
};
