using System.Text.Json;

namespace ScheduleOpt.Interchange.RatePlans.Import;

/// <summary>Which period of a structure holds in which month and hour, on weekdays and at weekends: two matrices of 12 x 24.</summary>
internal sealed class MonthMatrix
{
    private const int Months = 12, Hours = 24;

    private readonly int[][] weekday, weekend;

    private MonthMatrix(int[][] weekday, int[][] weekend) => (this.weekday, this.weekend) = (weekday, weekend);

    public IReadOnlyList<int> Row(int month, bool isWeekend) => (isWeekend ? weekend : weekday)[month];

    /// <summary>Whether weekends differ from weekdays in any month.</summary>
    public bool TellsDaysApart => Enumerable.Range(0, Months).Any(m => !weekday[m].SequenceEqual(weekend[m]));

    /// <summary>What a month looks like, as a text that equals another month's if they are the same.</summary>
    public string Pattern(int month) => string.Join(',', weekday[month]) + ";" + string.Join(',', weekend[month]);

    /// <summary>Periods that hold at some time in a month.</summary>
    public IEnumerable<int> PeriodsIn(int month) => weekday[month].Concat(weekend[month]).Distinct().Order();

    public IEnumerable<int> Periods => weekday.Concat(weekend).SelectMany(r => r).Distinct().Order();

    /// <summary>Reads the two matrices; none, with faults, where they are wrong.</summary>
    public static MonthMatrix? Read(DatabaseRecord record, string weekdayField, string weekendField, int periods)
    {
        if (!record.Has(weekdayField) && !record.Has(weekendField))
        {
            if (periods == 1)
            {
                record.Report(weekdayField, Carried.WithAssumption, "There is no schedule; the only period holds at all hours.");
                var always = Enumerable.Range(0, Months).Select(_ => new int[Hours]).ToArray();
                return new(always, always);
            }

            record.Fault(weekdayField, "A structure of several periods needs its schedule.");
            return null;
        }

        var onlyOne = !record.Has(weekendField) ? weekdayField : !record.Has(weekdayField) ? weekendField : null;
        if (onlyOne is not null)
        {
            record.Report(onlyOne, Carried.WithAssumption, "Only this schedule is given; it is taken for weekdays and weekends.");
        }

        var weekday = Rows(record, onlyOne ?? weekdayField, periods);
        var weekend = Rows(record, onlyOne ?? weekendField, periods);
        record.Report(weekdayField, Carried.Yes);
        record.Report(weekendField, Carried.WithAssumption, "Weekend means Saturday and Sunday.");
        return weekday is null || weekend is null ? null : new(weekday, weekend);
    }

    private static int[][]? Rows(DatabaseRecord record, string field, int periods)
    {
        var rows = record.List(field, Months);
        if (rows.Length != Months || Array.Exists(rows, r => r.ValueKind != JsonValueKind.Array || r.GetArrayLength() != Hours))
        {
            record.Fault(field, "It must be 12 rows, January first, of 24 hours.", record.Find(field));
            return null;
        }

        var matrix = new int[Months][];
        for (var m = 0; m < Months; m++)
        {
            matrix[m] = new int[Hours];
            for (var h = 0; h < Hours; h++)
            {
                if (!rows[m][h].TryIndex(out var index) || index < 0 || index >= periods)
                {
                    record.Fault($"{field}/{m}/{h}", $"It must be the number of a period, from 0 to {periods - 1}.", rows[m][h]);
                    return null;
                }

                matrix[m][h] = index;
            }
        }

        return matrix;
    }
}
