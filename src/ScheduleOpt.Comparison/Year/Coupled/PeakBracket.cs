namespace ScheduleOpt.Comparison.Year.Coupled;

/// <summary>A level of power that is searched between what the house takes anyway and what charging without a level would take.</summary>
internal sealed class PeakBracket
{
    private int[]? windowOf;
    private double[]? atHigh;
    private double[]? atLow;
    private double lowKw;
    private double highKw;
    private bool isLowTried;

    /// <param name="charge">The charge.</param>
    /// <param name="highestKw">The peak without a level. [kW]</param>
    /// <param name="hoursToCharge">For each average the time in it in which the car can charge. [h]</param>
    public PeakBracket(PeakCharge charge, double highestKw, double[] hoursToCharge)
    {
        (Charge, HighestKw, HoursToCharge) = (charge, highestKw, hoursToCharge);
        (lowKw, highKw, LevelKw) = (charge.FreeKw, highestKw, charge.FreeKw);
    }

    public PeakCharge Charge { get; }

    /// <summary>The peak without a level. [kW]</summary>
    public double HighestKw { get; }

    /// <summary>For each average the time in it in which the car can charge. [h]</summary>
    public double[] HoursToCharge { get; }

    /// <summary>The level in force. [kW]</summary>
    public double LevelKw { get; private set; }

    /// <summary>Whether the bracket is open: at first always, so that the lowest level is tried.</summary>
    public bool IsOpen => !isLowTried || highKw > lowKw;

    /// <summary>Moves the level.</summary>
    /// <param name="multipliers">What each average is worth at the level in force. [currency/kW]</param>
    /// <param name="price">What the next kW costs. [currency/kW]</param>
    /// <param name="tooLow">Whether something is short under it.</param>
    /// <param name="sameKw">Width at which the bracket is closed. [kW]</param>
    public bool Narrow(double[] multipliers, double price, bool tooLow, double sameKw)
    {
        if (tooLow || multipliers.Sum() > price)
        {
            lowKw = LevelKw;
            atLow = multipliers;
        }
        else
        {
            highKw = LevelKw;
            atHigh = multipliers;
        }

        isLowTried = true;
        if (highKw - lowKw <= sameKw)
        {
            LevelKw = highKw;
            lowKw = highKw;
            return false;
        }

        LevelKw = (lowKw + highKw) / 2;
        return true;
    }

    /// <summary>Searches again above a level that has been found too low; false where there is nothing above.</summary>
    public bool Reopen(double[] multipliers, double sameKw)
    {
        if (LevelKw >= HighestKw - sameKw)
        {
            return false;
        }

        (lowKw, highKw, atLow) = (LevelKw, HighestKw, multipliers);
        LevelKw = (lowKw + highKw) / 2;
        return true;
    }

    /// <summary>Moves the level.</summary>
    public void MoveTo(double kw) => LevelKw = kw;

    /// <summary>Keeps the lowest level that was not too low.</summary>
    public void KeepHigh() => LevelKw = highKw;

    /// <summary>Raises a level that has been found too low: halfway to the peak without one, and in the end out of the way.</summary>
    public void Raise(int times) => LevelKw = times < 3 ? (LevelKw + HighestKw) / 2 : double.PositiveInfinity;

    /// <summary>Multipliers that add up to a price, where those known reach it.</summary>
    /// <param name="highest">The highest ones at the level kept. [currency/kW]</param>
    /// <param name="price">What the next kW costs. [currency/kW]</param>
    public double[] Mixed(double[] highest, double price)
    {
        var low = atHigh ?? new double[highest.Length];
        var high = atLow is not null && (atLow.Sum() >= price || atLow.Sum() >= highest.Sum()) ? atLow : highest;
        var (least, most) = (low.Sum(), high.Sum());
        if (most <= price)
        {
            return most >= least ? high : low;
        }

        if (least >= price)
        {
            return AtMost(low, price);
        }

        var share = (price - least) / (most - least);
        return [.. low.Select((m, w) => m + (share * (high[w] - m)))];
    }

    /// <summary>Multipliers made smaller where they add up to more than a price.</summary>
    public static double[] AtMost(double[] multipliers, double price)
    {
        var sum = multipliers.Sum();
        return sum <= price ? multipliers : [.. multipliers.Select(m => m * price / sum)];
    }

    /// <summary>For each metering interval the average that it is counted to; -1 for none. Each average is counted whole or not at all.</summary>
    /// <param name="count">Number of metering intervals.</param>
    public int[] WindowOf(int count)
    {
        if (windowOf is not null)
        {
            return windowOf;
        }

        windowOf = new int[count];
        Array.Fill(windowOf, -1);
        var free = 0;
        for (var w = 0; w < Charge.Windows.Length; w++)
        {
            var window = Charge.Windows[w];
            if (window.From >= free)
            {
                Array.Fill(windowOf, w, window.From, window.Until - window.From);
                free = window.Until;
            }
        }

        return windowOf;
    }
}
