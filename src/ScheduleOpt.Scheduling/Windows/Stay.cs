namespace ScheduleOpt.Scheduling.Windows;

/// <summary>The intervals of one plug-in window at home, with running sums of what full power stores and costs.</summary>
/// <remarks>Position p of a stay counts its boundaries from 0; between them a fraction. <c>Gain(p)</c> and <c>Cost(p)</c> are what charging
/// from the start of the stay to p would store and cost.</remarks>
internal sealed class Stay
{
    private readonly double[] gain;
    private readonly double[] cost;
    private readonly double[] useless;

    public Stay(ChargingProblem problem, int first, int end)
    {
        Problem = problem;
        First = first;
        Count = end - first;
        gain = new double[Count + 1];
        cost = new double[Count + 1];
        useless = new double[Count + 1];
        for (var j = 0; j < Count; j++)
        {
            var i = first + j;
            var stored = problem.NetKw[i] * problem.Hours[i];
            gain[j + 1] = gain[j] + stored;
            useless[j + 1] = useless[j] + (stored > 0 ? 0 : problem.Hours[i]);

            // As in the LP: below a price of zero energy counts as stored, so that none is burned to earn it.
            cost[j + 1] = cost[j] + (problem.Price[i] >= 0 || stored <= 0
                ? Math.Max(0, problem.Price[i]) * problem.WallKw[i] * problem.Hours[i]
                : problem.Price[i] / problem.Constants.ConversionEfficiency * stored);
        }
    }

    public ChargingProblem Problem { get; }

    /// <summary>Index of the first interval.</summary>
    public int First { get; }

    /// <summary>Number of intervals.</summary>
    public int Count { get; }

    public double Gain(double position) => At(gain, position);

    public double Cost(double position) => At(cost, position);

    /// <summary>Whether nothing could be stored for a while between two positions: hours without charging, or deep cold. No window lies there.</summary>
    public bool IsBroken(double from, double until) => At(useless, until) - At(useless, from) > 1e-9;

    /// <summary>The first position by which charging from the start would have stored so much; the last, where nothing can be stored for a while after it.</summary>
    public double PositionOfGain(double kwh, bool last)
    {
        var position = FirstOfGain(kwh);
        if (last && position == Math.Floor(position))
        {
            while (position < Count && gain[(int)position + 1] <= gain[(int)position])
            {
                position++;
            }
        }

        return position;
    }

    private double FirstOfGain(double kwh)
    {
        if (kwh <= 0)
        {
            return 0;
        }

        int low = 0, high = Count;
        while (low < high)
        {
            var middle = (low + high) / 2;
            if (gain[middle] < kwh)
            {
                low = middle + 1;
            }
            else
            {
                high = middle;
            }
        }

        var step = gain[low] - gain[low - 1];
        return step <= 0 ? low : low - 1 + Math.Clamp((kwh - gain[low - 1]) / step, 0, 1);
    }

    /// <summary>The positions at which price, power, rate or a bound changes, with both ends.</summary>
    public int[] BreakPositions()
    {
        var positions = new List<int> { 0 };
        for (var j = 1; j < Count; j++)
        {
            var i = First + j;
            if (Problem.NetKw[i] != Problem.NetKw[i - 1]
                || Problem.WallKw[i] != Problem.WallKw[i - 1]
                || Problem.Price[i] != Problem.Price[i - 1]
                || Problem.LowerKwh[i] != Problem.LowerKwh[i - 1]
                || Problem.UpperKwh[i] != Problem.UpperKwh[i - 1])
            {
                positions.Add(j);
            }
        }

        positions.Add(Count);
        return [.. positions];
    }

    private double At(double[] sums, double position)
    {
        var whole = (int)position;
        return whole >= Count ? sums[Count] : sums[whole] + ((position - whole) * (sums[whole + 1] - sums[whole]));
    }
}
