# SPDX-License-Identifier: GPL-3.0-or-later
"""Drives a GTK 4 program as a person would, inside gui-session.sh.

Needs the distribution's own Python (python3-gi, python3-pyatspi), xdotool,
x11-utils and imagemagick.  Widgets are found by accessible name and role;
the mouse and the keyboard are real X events.

    from gui import App
  As a library:
    with App(["./program", "file"], title="Window title") as a:
        a.press("Undo")                      # accessibility action
        a.click("Score line")                # real mouse click
        a.drag("Card canvas", (50, 50), (250, 120))
        a.key("ctrl+s"); a.type("name.json"); a.key("Return")
        a.expect(lambda: a.text("Status line") == "Saved")
        a.shot("saved.png")

  From the shell, on a running program (inside the session):
    gui.py PID dump | press NAME | click NAME [X,Y] | drag NAME X,Y X,Y | text NAME
           | fill NAME TEXT | key KEYS... | type TEXT | shot FILE | wait NAME

Known traits of GTK 4.8 that this file works around:
  * screen coordinates are not supported: only positions inside the window are;
    they count from inside the drawn border (see _origin);
  * in a popover the positions are right only relative to the popover itself;
  * a name can come twice, once with the mnemonic underscore (see plain_name);
  * the accessibility 'click' of a button takes effect about 0.25 s later, and
    check boxes and list rows have no action: click those for real;
  * asking for text up to offset -1 gives an empty string; grabbing the focus
    over the bus is not supported (click or Tab instead);
  * two presses count as a double click only if no press elsewhere came less
    than 0.4 s before;
  * after a menu or list opens, leave it a frame or two (0.2 s) before keys.
"""
import os, re, signal, subprocess, sys, time
import pyatspi


def sh(*argv, check=True):
    return subprocess.run([str(a) for a in argv], check=check, text=True,
                          stdout=subprocess.PIPE, stderr=subprocess.DEVNULL).stdout


def plain_name(name):
    """'_Undo Undo' and 'Undo Undo' -> 'Undo'."""
    name = name or ""
    flat = re.sub(r"_(?=\w)", "", name)
    n = len(flat)
    if n % 2 == 1 and flat[n // 2] == " " and flat[:n // 2] == flat[n // 2 + 1:]:
        return flat[:n // 2]
    return flat


class NotFound(Exception):
    pass


class App:
    def __init__(self, argv, title=None, timeout=20, log=None, env=None):
        self.argv, self.title, self.timeout = argv, title, timeout
        self.log = log or os.devnull
        self.env = dict(os.environ, **(env or {}))
        self.proc = self.acc = None
        self.scale = int(self.env.get("GDK_SCALE", 1))      # X pixels per widget pixel

    # -- life ---------------------------------------------------------------
    @classmethod
    def attach(cls, pid, timeout=10):
        """Takes hold of a program that is already running; does not end it."""
        class Running:
            returncode = None
            def __init__(self, pid): self.pid = pid
            def poll(self): return None if os.path.exists("/proc/%d" % self.pid) else 0
        a = cls([], timeout=timeout)
        a.proc = Running(int(pid))
        a.acc = a.expect(a._find_app, what="program %s on the accessibility bus" % pid)
        return a

    def wait_exit(self, timeout=30):
        """After quitting by key or menu: lets leak checkers finish, returns the exit status."""
        return self.proc.wait(timeout)

    def __enter__(self):
        with open(self.log, "w") as out:
            self.proc = subprocess.Popen(self.argv, stdout=out, stderr=out, env=self.env)
        self.acc = self.expect(self._find_app, what="program on the accessibility bus")
        if self.title:
            self.expect(lambda: self.xwindow(self.title), what="window " + self.title)
            if sh("xprop", "-root", "_NET_SUPPORTING_WM_CHECK", check=False).find("window id") > 0:
                self.expect(lambda: self.active_title() == self.title, what="window gets the focus")
        return self

    def __exit__(self, *exc):
        if self.proc.poll() is None:
            self.proc.send_signal(signal.SIGTERM)
            try:
                self.proc.wait(5)
            except subprocess.TimeoutExpired:
                self.proc.kill()
                self.proc.wait()

    def _find_app(self):
        for a in pyatspi.Registry.getDesktop(0):
            if a is not None and a.get_process_id() == self.proc.pid and a.childCount:
                return a

    # -- waiting ------------------------------------------------------------
    def expect(self, cond, timeout=None, what="condition", step=0.02):
        """Polls until cond() is true, returns it; raises with a tree dump path if never."""
        end = time.monotonic() + (timeout or self.timeout)
        while True:
            try:
                got = cond()
            except (NotFound, RuntimeError, LookupError):
                got = None
            except Exception as e:                       # stale accessible objects
                if e.__class__.__name__ != "GError" and "Error" not in e.__class__.__name__:
                    raise
                got = None
            if got:
                return got
            if self.proc and self.proc.poll() is not None:
                raise AssertionError("program ended with %s while waiting for: %s" % (self.proc.returncode, what))
            if time.monotonic() > end:
                raise AssertionError("timed out waiting for: " + what)
            time.sleep(step)

    # -- widgets ------------------------------------------------------------
    def nodes(self, top=None):
        stack = [top or self.acc]
        while stack:
            n = stack.pop()
            yield n
            kids = []
            for i in range(n.childCount):
                c = n.getChildAtIndex(i)
                if c is not None:
                    kids.append(c)
            stack.extend(reversed(kids))

    def all(self, name=None, role=None, within=None):
        return [n for n in self.nodes(within)
                if (name is None or plain_name(n.name) == name)
                and (role is None or n.getRoleName() == role)]

    def find(self, what, role=None, within=None, wait=True):
        """what: an accessible name, or an accessible object (returned as it is)."""
        if not isinstance(what, str):
            return what
        def look():
            hit = self.all(what, role, within)
            # prefer what a person can use over the label inside it
            hit.sort(key=lambda n: (self._area(n) == 0, not self.has(n, "focusable"), n.getRoleName() == "label"))
            if not hit:
                raise NotFound(what)
            return hit[0]
        return self.expect(look, timeout=5, what="widget %r (role %s)" % (what, role)) if wait else look()

    def has(self, node, state):
        return node.getState().contains(getattr(pyatspi, "STATE_" + state.upper()))

    def text(self, what, role=None):
        n = self.find(what, role)
        try:
            t = n.queryText()
            return t.getText(0, t.characterCount)      # an end of -1 gives '' here
        except NotImplementedError:
            return n.name

    def value(self, what, role=None):
        return self.find(what, role).queryValue().currentValue

    def description(self, what, role=None):
        return self.find(what, role).description

    def press(self, what, role=None):
        """Accessibility action of the widget itself or of the first one inside it that has one."""
        for n in self.nodes(self.find(what, role)):
            try:
                act = n.queryAction()
            except NotImplementedError:
                continue
            for i in range(act.nActions):
                if act.getName(i) in ("click", "activate", "toggle"):
                    act.doAction(i)
                    return n
        raise NotFound("%s has no click action" % what)

    def act(self, what, action, role=None):
        """A named action, such as one installed with gtk_widget_class_install_action."""
        a = self.find(what, role).queryAction()
        for i in range(a.nActions):
            if a.getName(i) == action:
                return a.doAction(i)
        raise NotFound(action)

    def dump(self, file=sys.stdout, top=None):
        def rec(n, d):
            box = self._box(n)
            file.write("%s%s %r %s %s\n" % ("  " * d, n.getRoleName(), plain_name(n.name), box or "",
                       " ".join(s for s in ("focused", "checked", "pressed", "selected", "expanded") if self.has(n, s))))
            for i in range(n.childCount):
                c = n.getChildAtIndex(i)
                if c is not None:
                    rec(c, d + 1)
        rec(top or self.acc, 0)

    # -- places ---------------------------------------------------------------
    def _box(self, n):
        try:
            e = n.queryComponent().getExtents(pyatspi.WINDOW_COORDS)
        except NotImplementedError:
            return None
        return e.x, e.y, e.width, e.height

    def _area(self, n):
        b = self._box(n)
        return b[2] * b[3] if b else 0

    def xwindows(self):
        """[(id, title, x, y, w, h)] of this program's mapped windows, popovers included."""
        out = []
        for w in sh("xdotool", "search", "--onlyvisible", "--pid", self.proc.pid, check=False).split():
            # xwininfo, not xdotool: the latter counts the title bar of a managed window twice
            t = sh("xwininfo", "-id", w, check=False)
            g = [re.search(k + r":\s+(-?\d+)", t) for k in
                 ("Absolute upper-left X", "Absolute upper-left Y", "Width", "Height")]
            name = re.search(r'Window id: \S+ "(.*)"', t)
            if all(g) and int(g[2].group(1)) > 1:
                out.append((int(w), name.group(1) if name else "") + tuple(int(m.group(1)) for m in g))
        return out

    def xwindow(self, title):
        for w in self.xwindows():
            if w[1] == title:
                return w

    def active_title(self):
        return sh("xdotool", "getactivewindow", "getwindowname", check=False).strip()

    def _frame_extents(self, wid):
        m = re.search(r"=\s*(\d+), (\d+), (\d+), (\d+)", sh("xprop", "-id", wid, "_GTK_FRAME_EXTENTS", check=False))
        return tuple(map(int, m.groups())) if m else (0, 0, 0, 0)   # left right top bottom

    def _origin(self, node):
        """Root-window position of the point that this node's coordinates count from."""
        n, popover, top = node, None, None
        while n is not None and n.getRoleName() != "application":
            if plain_name(n.name) in ("GtkPopover", "GtkPopoverMenu") and popover is None:
                popover = n
            top, n = n, n.parent
        k, wins = self.scale, self.xwindows()
        if popover is not None:
            b = self._box(popover)
            tops = {plain_name(t.name) for t in self.acc}
            off = lambda w: abs(w[4] / k - b[2]) + abs(w[5] / k - b[3])
            fit = [w for w in wins if w[1] not in tops and off(w) <= 30]
            if not fit:
                raise NotFound("popover is not shown")
            w = min(fit, key=off)
            return (w[2] + (w[4] - b[2] * k) / 2 - b[0] * k,
                    w[3] + (w[5] - b[3] * k) / 2 - b[1] * k)
        b = self._box(top)
        fit = [w for w in wins if w[1] == plain_name(top.name)] or \
              [w for w in wins if 0 <= w[4] / k - b[2] <= 120 and 0 <= w[5] / k - b[3] <= 120]
        if not fit:
            raise NotFound("window of " + top.name)
        w = fit[0]
        l, r, t, bt = self._frame_extents(w[0])
        return (w[2] + l + (w[4] - l - r - b[2] * k) / 2 - b[0] * k,
                w[3] + t + (w[5] - t - bt - b[3] * k) / 2 - b[1] * k)

    def place(self, what, at=None, role=None):
        """Root-window point: middle of the widget, or 'at' counted from its top left."""
        n = self.find(what, role)
        b = self.expect(lambda: self._area(n) and self._box(n), timeout=5, what="%s has a size" % what)
        ox, oy = self.expect(lambda: self._origin(n), timeout=5, what="window of %s" % what)
        dx, dy = at if at is not None else (b[2] / 2, b[3] / 2)
        return round(ox + (b[0] + dx) * self.scale), round(oy + (b[1] + dy) * self.scale)

    # -- hands ------------------------------------------------------------------
    def move(self, what, at=None, role=None):
        x, y = self.place(what, at, role)
        sh("xdotool", "mousemove", x, y)
        return x, y

    def click(self, what, at=None, role=None, button=1, times=1, mods=()):
        x, y = self.place(what, at, role)
        if times > 1:
            time.sleep(0.45)      # a click elsewhere less than 0.4 s ago would spoil the double click
        # two moves, so that the pointer enters the widget before the press
        cmd = ["xdotool", "mousemove", x - 1, y, "mousemove", x, y]
        for m in mods:
            cmd += ["keydown", m]
        cmd += ["click", "--repeat", times, "--delay", 60, button] if times > 1 else ["click", button]
        for m in mods:
            cmd += ["keyup", m]
        sh(*cmd)

    def drag(self, what, start, end, role=None, steps=20, pause=0.008, button=1, mods=(), hold=0.0):
        """start, end: from the widget's top left."""
        x0, y0 = self.place(what, start, role)
        x1, y1 = self.place(what, end, role)
        cmd = ["xdotool", "mousemove", x0 - 1, y0, "mousemove", x0, y0]
        for m in mods:
            cmd += ["keydown", m]
        cmd += ["mousedown", button]
        for i in range(1, steps + 1):
            cmd += ["mousemove", round(x0 + (x1 - x0) * i / steps), round(y0 + (y1 - y0) * i / steps), "sleep", pause]
        cmd += ["sleep", hold, "mouseup", button]
        for m in mods:
            cmd += ["keyup", m]
        sh(*cmd)

    def scroll(self, what, up=True, times=1, at=None, mods=()):
        self.move(what, at)
        cmd = ["xdotool"]
        for m in mods:
            cmd += ["keydown", m]
        cmd += ["click", "--repeat", times, "--delay", 20, 4 if up else 5]
        for m in mods:
            cmd += ["keyup", m]
        sh(*cmd)

    def key(self, *keys):
        sh("xdotool", "key", "--clearmodifiers", *keys)

    def type(self, text, delay=8):
        sh("xdotool", "type", "--clearmodifiers", "--delay", delay, text)

    def fill(self, what, text, role=None):
        """Replaces an entry's text: typed when plain ASCII, else set through the
        accessibility bus (xdotool loses upper-case letters outside ASCII)."""
        n = self.find(what, role)
        self.click(n)
        if text.isascii():
            self.key("ctrl+a")
            self.type(text)
        else:
            n.queryEditableText().setTextContents(text)
        self.expect(lambda: self.text(n) == text, timeout=5, what="%r in %s" % (text, what))

    def shot(self, path, title=None):
        """The whole screen (popovers included), or one window."""
        w = self.xwindow(title) if title else None
        sh("import", "-window", w[0] if w else "root", path)
        return path


def main(argv):
    if len(argv) < 3:
        sys.exit(__doc__)
    a, verb, rest = App.attach(argv[1]), argv[2], argv[3:]
    xy = lambda t: tuple(float(v) for v in t.split(","))
    if verb == "dump":
        a.dump()
    elif verb == "press":
        a.press(rest[0])
    elif verb == "click":
        a.click(rest[0], at=xy(rest[1]) if len(rest) > 1 else None)
    elif verb == "drag":
        a.drag(rest[0], xy(rest[1]), xy(rest[2]))
    elif verb == "text":
        print(a.text(rest[0]))
    elif verb == "fill":
        a.fill(rest[0], rest[1])
    elif verb == "key":
        a.key(*rest)
    elif verb == "type":
        a.type(rest[0])
    elif verb == "shot":
        a.shot(rest[0])
    elif verb == "wait":
        a.find(rest[0])
    else:
        sys.exit("unknown: " + verb)


if __name__ == "__main__":
    main(sys.argv)
