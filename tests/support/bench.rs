//! What a reader does on the bench and its rule.

use super::page::{Page, Pointer};
use super::until;
use fantoccini::actions::{MOUSE_BUTTON_LEFT, PointerAction};
use fantoccini::key::Key;
use serde_json::json;
use std::time::Duration;

/// A point of the viewport.
pub type At = (f64, f64);

impl Page {
    /// The moment of the rule, in hundredths of a step.
    pub async fn moment(&self) -> f64 {
        self.value(".rule input").await.parse().unwrap()
    }

    /// Waits until the bench rests at a whole step.
    pub async fn wait_for_step(&self, step: u32) {
        self.wait_until(&format!("document.querySelector('.rule input').value === '{}'", 100 * step)).await;
    }

    /// Waits for the sentence of the room to be exactly this.
    pub async fn wait_for_sentence(&self, says: &str) {
        let css = ".says";
        let condition = format!("document.querySelector({}).textContent.trim() === {}", json!(css), json!(says));
        until(&format!("“{says}”"), async || {
            let now = self.eval(&format!("return !!({condition})")).await;
            (now == json!(true)).then_some(())
        })
        .await;
    }

    /// The sentence of the room.
    pub async fn sentence(&self) -> String {
        self.text(".says").await
    }

    /// Where the ring is that the hand takes: where the cursor says so.
    pub async fn grip(&self) -> At {
        let body = "
            const canvas = document.querySelector('.bench canvas'), box = canvas.getBoundingClientRect();
            const near = (clientX, clientY) => {
                canvas.dispatchEvent(new PointerEvent('pointermove', { bubbles: true, clientX, clientY }));
                return canvas.style.cursor === 'grab';
            };
            let [count, x, y] = [0, 0, 0];
            for (let top = box.top + 2; top < box.bottom; top += 6)
                for (let left = box.left + 2; left < box.right; left += 6)
                    if (near(left, top)) { count += 1; x += left; y += top; }
            near(-99, -99);
            return count ? [x / count, y / count] : null";
        let found = until("a ring to take", async || Some(self.eval(body).await).filter(|v| !v.is_null())).await;
        (found[0].as_f64().unwrap(), found[1].as_f64().unwrap())
    }

    /// The corners of the sheet as it lies at first, from the upper left clockwise, where the cursor says that it can be
    /// taken: what can be taken reaches 24 pixels beyond them.
    pub async fn corners(&self) -> [At; 4] {
        let body = "
            const canvas = document.querySelector('.bench canvas'), box = canvas.getBoundingClientRect();
            const taken = (clientX, clientY) => {
                canvas.dispatchEvent(new PointerEvent('pointermove', { bubbles: true, clientX, clientY }));
                return ['grab', 'pointer'].includes(canvas.style.cursor);
            };
            const found = [];
            for (let top = box.top + 2; top < box.bottom; top += 4)
                for (let left = box.left + 2; left < box.right; left += 4)
                    if (taken(left, top)) found.push([left, top]);
            taken(-99, -99);
            if (!found.length) return null;
            const corner = (axis, sign) => {
                const end = Math.max(...found.map((p) => sign * p[axis]));
                const there = found.filter((p) => end - sign * p[axis] < 2);
                const other = there.reduce((sum, p) => sum + p[1 - axis], 0) / there.length;
                const at = sign * (end - 22);
                return axis ? [other, at] : [at, other];
            };
            return [corner(0, -1), corner(1, -1), corner(0, 1), corner(1, 1)]";
        // While the view is still easing towards the sheet, the corners are on their way.
        let found = until("corners that stay", async || {
            let found = self.eval(body).await;
            tokio::time::sleep(std::time::Duration::from_millis(250)).await;
            (!found.is_null() && found == self.eval(body).await).then_some(found)
        })
        .await;
        [0, 1, 2, 3].map(|i| (found[i][0].as_f64().unwrap(), found[i][1].as_f64().unwrap()))
    }

    /// The middles of its left, right, upper and lower edge.
    pub async fn edges(&self) -> [At; 4] {
        let [a, b, c, d] = self.corners().await;
        [(a, d), (b, c), (a, b), (d, c)].map(|(p, q)| ((p.0 + q.0) / 2.0, (p.1 + q.1) / 2.0))
    }

    /// Takes the ring and leads it towards a point in small steps until the moment is far enough (in hundredths),
    /// and lets go there.
    pub async fn lead(&self, pointer: Pointer, from: At, to: At, far_enough: f64) -> f64 {
        self.touch_or_mouse(pointer, "Down", from).await;
        let mut now = 0.0;
        for i in 1..=120 {
            let share = f64::from(i) / 120.0;
            // A little arch, as a hand makes.
            let lift = (share * std::f64::consts::PI).sin() * 60.0;
            let at = (from.0 + (to.0 - from.0) * share, from.1 + (to.1 - from.1) * share - lift);
            self.touch_or_mouse(pointer, "Move", at).await;
            self.eval("return new Promise(requestAnimationFrame)").await;
            now = self.moment().await;
            if now % 100.0 >= far_enough {
                break;
            }
        }
        self.touch_or_mouse(pointer, "Up", to).await;
        now
    }

    /// One event of a pointer. The driver forgets between two calls that a finger is down, so a finger goes past it.
    async fn touch_or_mouse(&self, pointer: Pointer, what: &str, at: At) {
        if pointer == Pointer::Touch {
            let kind = ["touchStart", "touchMove", "touchEnd"]
                [["Down", "Move", "Up"].iter().position(|w| *w == what).unwrap()];
            let points = if what == "Up" { json!([]) } else { json!([{ "x": at.0.round(), "y": at.1.round() }]) };
            self.chrome.cdp("Input.dispatchTouchEvent", json!({ "type": kind, "touchPoints": points })).await;
            return;
        }
        let to = PointerAction::MoveTo { duration: Some(Duration::from_millis(0)), x: at.0.round(), y: at.1.round() };
        let steps = match what {
            "Down" => vec![to, PointerAction::Down { button: MOUSE_BUTTON_LEFT }],
            "Move" => vec![to],
            _ => vec![PointerAction::Up { button: MOUSE_BUTTON_LEFT }],
        };
        self.pointer_actions(pointer, steps).await;
    }

    /// Where a moment of the rule lies in the viewport, for a scheme of so many folds and leaves.
    pub async fn on_rule(&self, at: f64, folds: u32, leaves: u32) -> At {
        let ends = self
            .eval(
                "const track = document.querySelector('.rule svg > line.track'); track.scrollIntoView({ block: 'nearest' });
                 const r = track.getBoundingClientRect(); return [r.left, r.right, r.top]",
            )
            .await;
        let [left, right, y] = [0, 1, 2].map(|i| ends[i].as_f64().unwrap());
        let open = f64::from(folds + 2);
        // The leaves take the room of 1.6 folds.
        let x = if at <= open { at } else { open + (at - open) / f64::from(leaves) * 1.6 };
        (left + (right - left) * x / (open + 1.6), y)
    }

    /// Presses Tab until the focus is on an element.
    pub async fn tab_to(&self, css: &str) {
        for _ in 0..80 {
            if self.has_focus(css).await {
                return;
            }
            self.press(Key::Tab).await;
        }
        panic!("Tab does not reach {css}");
    }

    /// The middles of the thread's loops (each goes around a figure), in the viewport.
    pub async fn loops(&self) -> Vec<At> {
        let body = "
            const d = document.querySelector('.thread .strand')?.getAttribute('d') ?? '';
            const pieces = d.split('M').filter((piece) => piece.split('L').length > 20);
            return pieces.map((piece) => {
                const points = piece.split('L').map((pair) => pair.trim().split(/[ ,]+/).map(Number));
                const middle = (i) => {
                    const all = points.map((p) => p[i]);
                    return (Math.min(...all) + Math.max(...all)) / 2;
                };
                return [middle(0), middle(1)];
            })";
        let found = self.eval(body).await;
        let pair = |v: &serde_json::Value| (v[0].as_f64().unwrap(), v[1].as_f64().unwrap());
        found.as_array().unwrap().iter().map(pair).collect()
    }

    /// Whether a point lies in the box of an element.
    pub async fn lies_in(&self, at: At, css: &str) -> bool {
        let body = format!(
            "const r = document.querySelector({}).getBoundingClientRect();
             return r.left <= {x} && {x} <= r.right && r.top <= {y} && {y} <= r.bottom",
            json!(css),
            x = at.0,
            y = at.1
        );
        self.eval(&body).await == json!(true)
    }

    /// Does something that changes the job, and waits until the change is on the disk.
    pub async fn kept(&self, change: impl AsyncFnOnce()) {
        self.eval("delete document.documentElement.dataset.kept").await;
        change().await;
        self.wait_until("document.documentElement.dataset.kept === 'yes'").await;
    }
}
