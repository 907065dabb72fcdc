/** The job that `fairlath new` writes: a bench apron with every key that a job can hold. */
export const STARTER_JOB = `# A job for fairlath: the apron of a hall bench. Change it to your own part.
#
# Lay the part before you: stations run along the reference line from its left end,
# offsets lie square to it. A point is [station, offset].
# Lengths as on a rule: 28 3/4, 28-3/4", 2' 4 1/2", 730 mm, 73 cm. A bare number is in "units".
# Text after # is a remark. Indent with spaces.

part: Bench apron                 # the name on every sheet
units: in                         # in or mm
graduation: 1/32                  # finest mark on your rule
quantity: 2                       # how many to make
pair: identical                   # or mirrored: half of them the mirror image of the others

stock:                            # the board; any of these may be left out
  species: white oak
  length: 46
  width: 5
  thickness: 7/8
  layers: 1                       # boards glued up to this thickness

edges:                            # one edge: a line pattern. Two: a closed part. Names are yours
  top:
    - from: [0, 4 1/2]            # where the edge starts, at its left end
    - line: [44, 4 1/2]           # each step: its kind and where it ends
  bottom:
    - from: [0, 0]
    - line: [6, 0]                # flat where the leg joins
    - batten: [38, 0]             # a springy strip, free at both ends
      through: [20, 1 1/4]        # the nail it is bent over. A nail off the middle is not the apex
      # apex: [22, 1 1/4]         # instead of through: the highest point, where you want it
      # through: [[14, 1], [24, 1]] # or several nails
      # ends: [held, free]        # held: the end leaves in line with what it meets
      # strip: {from: 1/4, to: 1/8} # planed thinner, start to end; over one nail
    - line: [44, 0]
    # A line that stays at its station, from [6, 0] to [6, 1/4], is a shoulder: a square step.
    # Other steps:
    # - arc: [38, 0]              # part of a circle, by one of three:
    #   rise: 1 1/4               #   its height over the chord; below 0 it bulges downwards
    #   radius: 103               #   or its radius; below 0 it bulges downwards
    #   through: [22, 1 1/4]      #   or a point on it
    # - bow: [38, 0]              # a strip whose ends a string draws together
    #   rise: 1 1/4
    # - ellipse: [38, 0]          # half an ellipse on its chord
    #   rise: 1 1/4
    # - spline: [38, 0]           # a drafting curve through any number of points
    #   through: [[16, 1], [28, 1]]
    #   ends: natural             # natural, held, or one for each end: [natural, held]

ends:                             # how a closed part is cut off; edges run to the long point
  left: square
  right: square                   # or as a saw is set, degrees: {miter: 6, bevel: 4}
                                  # or as a leg stands: {rake: 6, splay: 4}. Over 0 leans left,
                                  # going away from the reference line and to the marked face

joints:                           # on the marked face: "at" from the left end, "out" from the line
  - mortise: {at: 12, out: 3 5/8, length: 1 1/2, width: 1/4, depth: 3/8, label: button}
  - mortise: {at: 32, out: 3 5/8, length: 1 1/2, width: 1/4, depth: 3/8, label: button}
  # turn: 5                       # turned by degrees; without a depth it goes right through
  # - slot: {at: 12, out: 3 5/8, length: 1 1/2, width: 1/4}   # with round ends
  # - hole: {at: 2, out: 2, diameter: 3/8, lean: 2, toward: right} # toward left, right, out or in
  # - centre-line: {at: 22}       # across; {out: 2} along
  # - mark: {at: 6, label: leg}   # across; with "out" a cross

allowance:
  saw: 1/16                       # saw to the dashed line, this far out; finish to the solid
  width: 1/8                      # how much wider than the part its blank is to be

notes: Grain runs along the apron. Mark the face side before sawing.
`;
