using NodaTime;
using ScheduleOpt.Core.Charging;
using ScheduleOpt.Core.Pricing;
using ScheduleOpt.Scheduling.Households;

namespace ScheduleOpt.Scheduling.Tests.Households;

/// <summary>A household straight from numbers: intervals of an hour, an ampere is a kilowatt, and what the wall gives the battery gets, unless a test says otherwise.</summary>
internal sealed class HandMade
{
    public static readonly Instant Start = Instant.FromUtc(2026, 1, 14, 18, 0);

    public HandMade(int count)
    {
        Count = count;
        (Import, Export, Carbon, House, Solar) = (new double[count], new double[count], new double[count], new double[count], new double[count]);
    }

    public int Count { get; }

    public double[] Import { get; init; }

    public double[] Export { get; init; }

    public double[] Carbon { get; init; }

    public double[] House { get; init; }

    public double[] Solar { get; init; }

    public double? ImportLimit { get; init; }

    public double? CircuitA { get; init; }

    public IReadOnlyList<PriceTerm> Terms { get; init; } = [];

    public IReadOnlyList<HandMadeCar> Cars { get; init; } = [new()];

    public static Interval Hours(int from, int until) => new(Start + Duration.FromHours(from), Start + Duration.FromHours(until));

    public HouseholdProblem Build() => new()
    {
        Boundaries = [.. Enumerable.Range(0, Count + 1).Select(i => Start + Duration.FromHours(i))],
        Hours = Filled(Count, 1),
        Cars = [.. Cars.Select((car, c) => car.Build($"car {c + 1}", this))],
        HouseKw = House,
        SolarKw = Solar,
        ImportPrice = Import,
        ExportPrice = Export,
        CarbonPrice = Carbon,
        ImportLimitKw = ImportLimit,
        Circuits = CircuitA is { } most ? [new([.. Enumerable.Range(0, Cars.Count)], most)] : [],
        Terms = Terms,
    };

    internal static double[] Filled(int count, double value)
    {
        var array = new double[count];
        Array.Fill(array, value);
        return array;
    }
}

/// <summary>A car that asks for energy at the end of the horizon, or earlier.</summary>
internal sealed class HandMadeCar
{
    public double Required { get; init; }

    public int? LeavesAt { get; init; }

    public double Initial { get; init; }

    public double MostKw { get; init; } = 7;

    public double LeastA { get; init; } = 1;

    public double Room { get; init; } = 1000;

    public double EndValue { get; init; }

    public RunningRules Rules { get; init; } = new() { Adjustable = true };

    public ChargingConstants Constants { get; init; } = new() { ConversionEfficiency = 1, OverheadKw = 0, HeatingKwPerKelvin = 0 };

    public Action<ChargingProblem>? Change { get; init; }

    public DepartureTarget[]? Departures { get; init; }

    public double[]? MostA { get; init; }

    public HouseholdCar Build(string name, HandMade household)
    {
        var n = household.Count;
        var leaves = LeavesAt ?? n;
        double[] most = MostA ?? [.. Enumerable.Range(0, n).Select(i => i < leaves ? MostKw : 0)];
        var problem = new ChargingProblem
        {
            MostA = most,
            Boundaries = [.. Enumerable.Range(0, n + 1).Select(i => HandMade.Start + Duration.FromHours(i))],
            Hours = HandMade.Filled(n, 1),
            Place = [.. Enumerable.Range(0, n).Select(i => i < leaves ? Place.Home : Place.Road)],
            Price = [.. household.Import],
            WallKw = most,
            NetKw = [.. most.Select(kw => ChargingModel.NetRateKw(kw, 20, Constants))],
            TemperatureC = HandMade.Filled(n, 20),
            DriveKwh = new double[n],
            LowerKwh = new double[n + 1],
            UpperKwh = HandMade.Filled(n + 1, Initial + Room),
            Departures = Departures ?? [new(leaves, n, Required, 0, 0)],
            InitialKwh = Initial,
            UsableKwh = 2000,
            OrdinaryKwh = 2000,
            MinimumKwh = 0,
            EndValuePerKwh = EndValue,
            Constants = Constants,
        };
        Change?.Invoke(problem);
        return new(name, problem, 1000, most, LeastA, Rules);
    }
}
