"""How long the parts of the body are, in centimetres for the stature of the figure.

One published set, whole: the segment lengths of Drillis and Contini (1966) as fractions of stature, as Winter prints
them (Biomechanics and Motor Control of Human Movement, figure 4.1); tests hold each of them against the copied rows.
They go with the masses of Dempster in `masses.py`, which belong to the same tradition. The one body that is drawn is
neither a man's nor a woman's: the lengths are those of the average adult, the masses those of Dempster's male
specimens.

What that set does not say, it cannot be asked: how the trunk divides, where a joint's centre lies within the
breadth, and how the foot lies about the ankle. Those values are the project's own and stand apart below.
"""

from __future__ import annotations

from protodsl.figure.posture import STATURE

# Drillis and Contini, fractions of stature.
UPPER_ARM = 0.186 * STATURE
FOREARM = 0.146 * STATURE
HAND = 0.108 * STATURE
THIGH = 0.245 * STATURE
SHANK = 0.246 * STATURE
ANKLE_HEIGHT = 0.039 * STATURE
FOOT = 0.152 * STATURE
HIP_HEIGHT = 0.530 * STATURE
SHOULDER_HEIGHT = 0.818 * STATURE
HEAD_HEIGHT = 0.130 * STATURE
HIP_BREADTH = 0.191 * STATURE
SHOULDER_BREADTH = 0.259 * STATURE

# The project's own: no published value. The trunk's parts add up to the height of the shoulder, of C7 and of the
# vertex.
HIP_TO_LUMBAR = 0.055 * STATURE
LUMBAR = 0.100 * STATURE
LOWER_THORAX = 0.075 * STATURE
UPPER_THORAX = 0.095 * STATURE
NECK = 0.062 * STATURE
SHOULDER_IN_THORAX = SHOULDER_HEIGHT - HIP_HEIGHT - HIP_TO_LUMBAR - LUMBAR - LOWER_THORAX
HALF_HIPS = 0.050 * STATURE
HALF_SHOULDERS = 0.105 * STATURE
CLAVICLE_INNER_END = 0.014 * STATURE
HEEL_BEHIND_ANKLE = 0.040 * STATURE
ANKLE_TO_BALL = 0.0694 * STATURE
BALL_RADIUS = 0.0155 * STATURE
# From the wrist to the second knuckle, where Dempster ends the hand.
WRIST_TO_KNUCKLE = 0.078 * STATURE
