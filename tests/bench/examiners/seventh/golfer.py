"""Who swings."""
import numpy as np

from examiners.seventh.script import EASES


def draw_golfer(rng):
    """What stays with one person: build, strategy, shapes, tempo, strength of the push."""
    weak = rng.random() < 0.35
    return dict(
        mass_kg=rng.uniform(45, 130),
        half_stance=rng.uniform(110, 210),
        ripple=rng.random() < 0.5,
        path=str(
            rng.choice(
                ["pieces", "spline", "overlap", "early", "hang back", "forward"],
                p=[0.2, 0.2, 0.2, 0.1, 0.25, 0.05]
                if weak
                else [0.25, 0.25, 0.25, 0.17, 0.03, 0.05],
            )
        ),
        load_path=str(rng.choice(["pulses", "height", "two pushes"], p=[0.4, 0.4, 0.2])),
        eases=[str(e) for e in rng.choice(list(EASES), 3)],
        warps=rng.uniform(0.85, 1.2, 3),
        address=rng.uniform(50, 65) if weak else rng.uniform(70, 80),
        dip=rng.uniform(7, 22) if weak else rng.uniform(3.5, 10),
        finish=rng.uniform(80, 92) if weak else rng.uniform(86, 97),
        backswing=rng.uniform(0.58, 1.02),
        ratio=rng.uniform(2.1, 3.8),
        turn_lead=rng.uniform(-0.02, 0.13),
        through=rng.uniform(0.55, 1.1),
        done=rng.uniform(0.62, 1.0),
        push=float(np.clip(np.exp(rng.normal(np.log(0.13), 0.5)), 0.05, 0.4)),
        push_lead=rng.uniform(0.01, 0.08),
        unweight=rng.uniform(0.3, 0.9),
        width=rng.uniform(0.8, 1.3),
        lift=rng.uniform(0.05, 0.3),
        rise_m=rng.uniform(-0.01, 0.04),
        steady=rng.uniform(0.015, 0.05),
        heel=rng.uniform(5, 35),
        toe=rng.uniform(15, 60),
    )
