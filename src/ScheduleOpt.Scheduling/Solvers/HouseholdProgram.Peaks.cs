using Google.OrTools.LinearSolver;
using ScheduleOpt.Scheduling.Households.Model;
using ScheduleOpt.Scheduling.Households.Running;

namespace ScheduleOpt.Scheduling.Solvers;

/// <summary>What follows for on and off where peaks are known to lie in ranges: without it the relaxation charges in every interval a little.</summary>
/// <remarks>A car is on in so much of a segment (z) as it has power there over what the peak leaves it; neighbours that have no room to be on throughout are not all on;
/// and where three neighbours are on, the middle one is on throughout.</remarks>
internal sealed partial class HouseholdProgram
{
    // Rows over more neighbouring segments than this are left out: they say little that shorter ones don't.
    private const int MostNeighbours = 8;

    private void AddPeakRooms(PeakRange[] peaks)
    {
        var room = PeakRoom.Below(model, peaks);
        for (var c = 0; c < model.Cars.Length; c++)
        {
            var isIn = new bool[model.Problem.Count];
            foreach (var (first, end) in room.NotAllOn[c])
            {
                Array.Fill(isIn, true, first, end - first);
            }

            for (var s = 0; s < grid.Count; s++)
            {
                AddPeakRoom(c, s, room, isIn);
            }

            foreach (var (first, end) in model.Cars[c].Stays)
            {
                AddNeighbours(c, grid.SegmentOf[first], grid.SegmentOf[end - 1] + 1, room);
            }
        }
    }

    private void AddPeakRoom(int c, int s, PeakRoom room, bool[] isIn)
    {
        var i = grid.First[s];
        if (plan.Modes[c][s] is not (OnOff.Relaxed or OnOff.Integer) || model.Problem.Cars[c].Problem.Place[i] != Place.Home)
        {
            return;
        }

        var (most, notAll) = (0.0, false);
        for (; i < grid.First[s + 1]; i++)
        {
            most = Math.Max(most, room.MostKw[i]);
            notAll |= isIn[i];
        }

        var bounded = most < model.Cars[c].MostKw[grid.First[s]] - 1e-9;
        if (!bounded && !notAll)
        {
            return;
        }

        if (on[c][s] is not { } z)
        {
            z = on[c][s] = solver.MakeNumVar(0, 1, string.Empty);
            Row(-Infinity, 0, (share[c][s]!, 1), (z, -1));
        }

        if (bounded)
        {
            Row(-Infinity, 0, power[c][s] is { } p ? [(p, 1), (z, -most)] : [(share[c][s]!, FullKw(c, s)), (z, -most)]);
        }
    }

    private void AddNeighbours(int c, int from, int until, PeakRoom room)
    {
        for (var a = from; a < until; a++)
        {
            for (var b = a; b < until && b - a < MostNeighbours && on[c][b] is not null; b++)
            {
                var least = room.LeastOff(c, grid.First[a], grid.First[b + 1]);
                if (least > 0 && least > MostOffOfParts(c, a, b, room))
                {
                    Off(a, b, least);
                }

                On(a, b);
            }
        }

        void Off(int a, int b, int least)
        {
            var row = solver.MakeConstraint(-Infinity, grid.First[b + 1] - grid.First[a] - least);
            for (var s = a; s <= b; s++)
            {
                row.SetCoefficient(on[c][s]!, Intervals(s));
            }
        }

        void On(int a, int b)
        {
            // Three neighbours: the middle one throughout. Summed over more, where intervals are merged.
            var single = Intervals(a) == 1;
            var triple = b == a + 2 && Enumerable.Range(a, 3).All(s => Intervals(s) == 1);
            var n = grid.First[b + 1] - grid.First[a];
            if (triple && Enumerable.Range(a, 3).Any(s => plan.Modes[c][s] != OnOff.Integer))
            {
                Row(-2, Infinity, (share[c][a + 1]!, 1), (on[c][a]!, -1), (on[c][a + 1]!, -1), (on[c][b]!, -1));
            }
            else if (!single && n > 2 && power[c][a] is not null)
            {
                var row = solver.MakeConstraint((-2 * n) - 2, Infinity);
                for (var s = a; s <= b; s++)
                {
                    row.SetCoefficient(share[c][s]!, Intervals(s));
                    row.SetCoefficient(this.on[c][s]!, -3 * Intervals(s));
                }
            }
        }

        int Intervals(int s) => grid.First[s + 1] - grid.First[s];
    }

    private int MostOffOfParts(int c, int a, int b, PeakRoom room)
    {
        var most = 0;
        for (var middle = a + 1; middle <= b; middle++)
        {
            most = Math.Max(most, room.LeastOff(c, grid.First[a], grid.First[middle]) + room.LeastOff(c, grid.First[middle], grid.First[b + 1]));
        }

        return most;
    }
}
