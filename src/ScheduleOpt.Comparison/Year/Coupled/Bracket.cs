namespace ScheduleOpt.Comparison.Year.Coupled;

/// <summary>A price that is searched: too low where use at it lies where the next kWh costs more, too high where the last one cost less.</summary>
internal sealed class Bracket(double at)
{
    private const double SamePrice = 1e-7;
    private double? low;
    private double? high;

    /// <summary>The price in force.</summary>
    public double At { get; private set; } = at;

    /// <summary>Moves it, given the prices on both sides of the use at it; false where it lies between them.</summary>
    public bool Narrow(double below, double above)
    {
        if (At >= below - SamePrice && At <= above + SamePrice)
        {
            return false;
        }

        if (At < below)
        {
            low = At;
            At = high is { } h ? (At + h) / 2 : below;
            return high is null || high - low > SamePrice;
        }

        high = At;
        At = low is { } l ? (At + l) / 2 : above;
        return low is null || high - low > SamePrice;
    }
}
