using NodaTime;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Households;
using ScheduleOpt.Scheduling.Windows;

namespace ScheduleOpt.Comparison.Tonight;

/// <summary>A car's run while it is corrected, change by change: none is taken by which more is stored than may be.</summary>
internal sealed class CorrectedRun
{
    // Halvings of an interval of at most an hour: to less than a second.
    private const int Halvings = 12;

    private readonly HouseholdCar car;
    private readonly double[] currentA;
    private readonly IReadOnlyList<ChargingWindow> before;
    private readonly List<ChargingWindow> windows;
    private CarSchedule planned;
    private CarRun run;

    public CorrectedRun(HouseholdCar car, CarSchedule planned, double[] currentA, IReadOnlyList<ChargingWindow> windows)
    {
        (this.car, this.planned, this.currentA) = (car, planned, currentA);
        (before, this.windows) = (windows, [.. windows]);
        run = CarRun.Of(car, planned, currentA, this.windows);
    }

    /// <summary>The windows as they are now.</summary>
    public IReadOnlyList<ChargingWindow> Windows => windows;

    /// <summary>Stored energy at each boundary. [kWh]</summary>
    public double[] StoredKwh => run.Replay.StoredKwh;

    /// <summary>The run, without windows that have come to nothing.</summary>
    public CarRun Result() => CarRun.Of(car, planned, currentA, [.. windows.Where(w => w.End > w.Start)], Earlier());

    /// <summary>Takes a window in another's place if no more is then stored than may be.</summary>
    public bool Try(int w, ChargingWindow window)
    {
        var was = windows[w];
        windows[w] = window;
        if (Take(planned))
        {
            return true;
        }

        windows[w] = was;
        return false;
    }

    /// <summary>Charges for longer in an interval at a stop, until a boundary has so much or the interval is used up.</summary>
    /// <param name="i">The interval.</param>
    /// <param name="until">The boundary.</param>
    /// <param name="wantedKwh">What should be stored there. [kWh]</param>
    public void ChargeLonger(int i, int until, double wantedKwh)
    {
        var (enough, most) = (planned.Shares[i], 1.0);
        if (enough >= most || car.Problem.NetKw[i] <= 0 || (TryShare(i, most) && StoredKwh[until] <= wantedKwh))
        {
            return;
        }

        for (var look = 0; look < Halvings; look++)
        {
            var between = (enough + most) / 2;
            var fits = TryShare(i, between) && StoredKwh[until] <= wantedKwh;
            (enough, most) = fits ? (between, most) : (enough, between);
        }

        TryShare(i, enough);
    }

    private bool TryShare(int i, double share)
    {
        var shares = (double[])planned.Shares.Clone();
        shares[i] = share;
        return Take(planned with { Shares = shares });
    }

    private bool Take(CarSchedule changed)
    {
        var next = CarRun.Of(car, changed, currentA, windows);
        if (!StoredLimit.Holds(car.Problem, StoredKwh, next.Replay.StoredKwh, Earlier()))
        {
            return false;
        }

        (planned, run) = (changed, next);
        return true;
    }

    /// <summary>The most by which a window begins earlier than planned.</summary>
    private Duration Earlier() => before.Zip(windows, (planned, now) => planned.Start - now.Start).Append(Duration.Zero).Max();
}
