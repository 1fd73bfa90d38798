// Shows the amounts of the chosen system and batch, which the lines of the tables carry; and the recipe at the bench.
(function () {
  "use strict";

  var root = document.documentElement;
  var choices = { units: ["weights", "cups", "both"], batch: ["half", "one", "two", "three"] };
  var usual = { units: "both", batch: "one" };

  // Storage is refused in some private windows; the choice then lasts for the page.
  function remembered(name) {
    try {
      return localStorage.getItem("levelcup-" + name);
    } catch (refused) {
      return null;
    }
  }

  function remember(name, value) {
    try {
      localStorage.setItem("levelcup-" + name, value);
    } catch (refused) {
      return;
    }
  }

  function choose(name, value) {
    root.dataset[name] = choices[name].indexOf(value) < 0 ? usual[name] : value;
  }

  // Before the page is drawn, so that nothing moves afterwards.
  root.classList.add("scripted");
  Object.keys(choices).forEach(function (name) {
    choose(name, remembered(name));
  });

  // The text of an amount is what one batch takes; what others take stands beside it.
  function amounts(batch) {
    document.querySelectorAll(".amounts span[data-two], .uses span[data-two]").forEach(function (amount) {
      if (!("one" in amount.dataset)) {
        amount.dataset.one = amount.textContent;
      }
      amount.textContent = amount.dataset[batch];
    });
    document.querySelectorAll(".uses [data-line]").forEach(function (use) {
      var line = use.closest(".component").querySelectorAll(".amounts tbody tr")[use.dataset.line];
      [".weight span", ".measure span"].forEach(function (amount) {
        use.querySelector(amount).textContent = line.querySelector(amount).textContent;
      });
    });
  }

  // The screen stays on while the recipe is at the bench, where the browser can see to it.
  var lock = null;

  function keepAwake() {
    if (root.dataset.bench && navigator.wakeLock && document.visibilityState === "visible") {
      navigator.wakeLock.request("screen").then(function (held) {
        lock = held;
      }, function () {
        lock = null;
      });
    } else if (lock && !root.dataset.bench) {
      lock.release();
      lock = null;
    }
  }

  function bench(button) {
    // The rest of the page comes and goes around the button, which stays in sight.
    function turn(on) {
      if (on) {
        root.dataset.bench = "on";
      } else {
        delete root.dataset.bench;
      }
      button.setAttribute("aria-pressed", String(on));
      button.scrollIntoView({ block: "nearest" });
      keepAwake();
    }
    button.addEventListener("click", function () {
      turn(!root.dataset.bench);
    });
    document.addEventListener("keydown", function (event) {
      if (event.key === "Escape" && root.dataset.bench) {
        turn(false);
        button.focus();
      }
    });
    document.addEventListener("visibilitychange", keepAwake);
  }

  // Ticks last until the window is closed, so that nothing is lost when the page is loaded again.
  function ticks(boxes) {
    var name = "levelcup-ticks " + location.pathname;
    var ticked = [];
    try {
      ticked = JSON.parse(sessionStorage.getItem(name)) || [];
    } catch (refused) {
      ticked = [];
    }
    boxes.forEach(function (box, at) {
      box.checked = ticked[at] === 1;
      box.addEventListener("change", function () {
        try {
          sessionStorage.setItem(name, JSON.stringify(boxes.map(function (one) {
            return one.checked ? 1 : 0;
          })));
        } catch (refused) {
          return;
        }
      });
    });
  }

  function clock(seconds) {
    var two = function (number) {
      return (number < 10 ? "0" : "") + number;
    };
    var minutes = Math.floor(seconds / 60) % 60;
    var hours = Math.floor(seconds / 3600);
    return (hours ? hours + ":" + two(minutes) : minutes) + ":" + two(seconds % 60);
  }

  // Three short notes; made on the button's press, as browsers want.
  function bell() {
    var Sound = window.AudioContext || window.webkitAudioContext;
    var sound = Sound && new Sound();
    return function () {
      [0, 0.4, 0.8].forEach(function (after) {
        if (sound) {
          var note = sound.createOscillator();
          note.frequency.value = 880;
          note.connect(sound.destination);
          note.start(sound.currentTime + after);
          note.stop(sound.currentTime + after + 0.2);
        }
      });
    };
  }

  function timer(button, status) {
    var label = button.textContent;
    var ticking = null;
    function stop(text) {
      clearInterval(ticking);
      ticking = null;
      button.textContent = text;
    }
    button.addEventListener("click", function () {
      if (ticking) {
        stop(label);
        return;
      }
      var ring = bell();
      var end = Date.now() + Number(button.dataset.seconds) * 1000;
      function tick() {
        var left = Math.ceil((end - Date.now()) / 1000);
        if (left > 0) {
          button.textContent = status.dataset.left.replace("{time}", clock(left));
          return;
        }
        stop(status.dataset.up);
        status.textContent = status.dataset.up + ": " + button.closest(".step").querySelector("p").textContent;
        ring();
      }
      ticking = setInterval(tick, 250);
      tick();
    });
  }

  document.addEventListener("DOMContentLoaded", function () {
    var form = document.querySelector(".switches");
    if (!form) {
      return;
    }
    Object.keys(choices).forEach(function (name) {
      form.elements[name].value = root.dataset[name];
    });
    if (root.dataset.batch !== usual.batch) {
      amounts(root.dataset.batch);
    }
    form.addEventListener("change", function (event) {
      var name = event.target.name;
      if (choices[name]) {
        choose(name, event.target.value);
        remember(name, root.dataset[name]);
        amounts(root.dataset.batch);
      }
    });
    form.addEventListener("submit", function (event) {
      event.preventDefault();
    });
    bench(document.querySelector(".to-bench"));
    ticks(Array.prototype.slice.call(document.querySelectorAll(".tick input")));
    var status = document.querySelector(".timers-status");
    document.querySelectorAll(".timer").forEach(function (button) {
      timer(button, status);
    });
  });
})();
