using ScheduleOpt.Scheduling.Households.Model;

namespace ScheduleOpt.Scheduling.Households.Running;

/// <summary>For every car and segment, what is decided already.</summary>
/// <param name="Grid">The segments.</param>
/// <param name="Modes">By car and segment; stops are always relaxed.</param>
/// <param name="FixedKw">Power while it charges where that is decided too, NaN elsewhere; none: nowhere. [kW]</param>
/// <param name="Peaks">Ranges of peaks, by term of the model; with them the relaxation knows more of how cars run. None: all.</param>
/// <param name="FreeFlows">Whether an interval may import and export in shares: a bound still, and no binaries.</param>
/// <param name="Imports">For intervals where a binary would choose, whether the price of import or that of export counts: the least of both is the cost, so it is never counted too
/// low. None: binaries choose.</param>
internal sealed record OnOffPlan(Segments Grid, OnOff[][] Modes, double[][]? FixedKw = null, PeakRange[]? Peaks = null, bool FreeFlows = false, bool[]? Imports = null)
{
    /// <summary>Everything open.</summary>
    public static OnOffPlan Relaxed(Segments grid) => new(grid, [.. grid.Model.Cars.Select(car => Fill(grid, car, OnOff.Relaxed, 0))]);

    /// <summary>Integers before each car's second departure, the rest relaxed.</summary>
    /// <param name="grid">The segments: single intervals where integers decide.</param>
    /// <param name="throughout">Integers over the whole horizon instead.</param>
    public static OnOffPlan Integers(Segments grid, bool throughout = false) =>
        Integers(grid, [.. grid.Model.Cars.Select(car => throughout ? car.Car.Problem.Count : car.IntegersUntil)]);

    /// <summary>Integers before a boundary of each car, the rest relaxed.</summary>
    public static OnOffPlan Integers(Segments grid, int[] until) => new(grid, [.. grid.Model.Cars.Select((car, c) => Fill(grid, car, OnOff.Integer, until[c]))]);

    private static OnOff[] Fill(Segments grid, CarPower car, OnOff mode, int until)
    {
        var modes = new OnOff[grid.Count];
        for (var s = 0; s < modes.Length; s++)
        {
            var i = grid.First[s];
            var open = car.MostKw[i] > 0;
            modes[s] = !open ? OnOff.Off
                : mode == OnOff.Relaxed || i >= until || car.Car.Problem.Place[i] != Place.Home ? OnOff.Relaxed
                : mode;
        }

        return modes;
    }
}
