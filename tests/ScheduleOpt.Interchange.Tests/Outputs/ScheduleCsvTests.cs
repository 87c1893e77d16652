using System.Globalization;
using System.Text;
using System.Text.Json;
using ScheduleOpt.Interchange.Outputs;
using ScheduleOpt.Interchange.Tests.Requests;
using ScheduleOpt.Interchange.Tests.Requests.Households;

namespace ScheduleOpt.Interchange.Tests.Outputs;

public sealed class ScheduleCsvTests
{
    [Fact]
    public void Intervals_ReadBack_AreThoseOfTheAnswer()
    {
        var answer = Answers.To(HouseholdText.TwoCars());
        var rows = Rows(ScheduleCsv.WriteIntervals(answer));

        Assert.Equal(
            ["car", "start", "end", "place", "temperature_c", "period", "price_per_kwh", "currency", "charging_share", "current_a", "energy_kwh", "state_of_charge_at_end"],
            rows[0]);
        Assert.Equal(answer.Cars.Sum(c => c.Intervals.Count), rows.Count - 1);
        Assert.All(rows, r => Assert.Equal(12, r.Length));
        foreach (var car in answer.Cars)
        {
            var own = rows.Skip(1).Where(r => r[0] == car.Car.Name).ToArray();
            Assert.Equal(car.Intervals.Sum(i => i.WallKwh), own.Sum(r => Number(r[10])), 0.0001 * own.Length);
            Assert.Equal(["home", "road"], own.Select(r => r[3]).Distinct().Order());
            Assert.All(own, r => Assert.True(r[3] == "home" == (r[5].Length > 0)));
        }

        Assert.EndsWith("\r\n", Encoding.UTF8.GetString(ScheduleCsv.WriteIntervals(answer)), StringComparison.Ordinal);
    }

    [Fact]
    public void Windows_WithChangingCurrent_HaveARowForEachStep()
    {
        var answer = Answers.With(RequestText.Schedule(), [(4, 5, 32), (5, 5.5, 16)], [(8, 9, 32)]);
        var rows = Rows(ScheduleCsv.WriteWindows(answer));

        Assert.Equal(["car", "uid", "sequence", "start", "end", "current_a", "power_kw", "energy_kwh", "cost", "currency"], rows[0]);
        Assert.Equal(["32", "16", "32"], rows.Skip(1).Select(r => r[5]));
        Assert.Equal(["7.68", "3.84", "7.68"], rows.Skip(1).Select(r => r[6]));
        Assert.Equal(["2026-01-14T21:30:00-06:00", "2026-01-14T22:30:00-06:00", "2026-01-15T01:30:00-06:00"], rows.Skip(1).Select(r => r[3]));
        Assert.Equal(rows[1][1], rows[2][1]);
        Assert.NotEqual(rows[1][1], rows[3][1]);
    }

    [Theory]
    [InlineData("=1+2")]
    [InlineData("+cmd")]
    [InlineData("-2")]
    [InlineData("@SUM(A1)")]
    public void Text_ThatASpreadsheetWouldRun_GetsAnApostrophe(string name)
    {
        var answer = Answers.To(HouseholdText.TwoCars().Set("cars/0/name", JsonSerializer.Serialize(name)));

        Assert.Contains(Rows(ScheduleCsv.WriteIntervals(answer)).Skip(1), r => r[0] == "'" + name);
        Assert.DoesNotContain(Rows(ScheduleCsv.WriteWindows(answer)).Skip(1).SelectMany(r => r), c => c.Length > 0 && "=+-@".Contains(c[0], StringComparison.Ordinal) && !double.TryParse(c, out _));
    }

    [Fact]
    public void Text_WithCommasAndQuotes_ComesBackWhole()
    {
        const string Name = "The \"big\" one, blue";
        var answer = Answers.To(HouseholdText.TwoCars().Set("cars/0/name", JsonSerializer.Serialize(Name)));

        Assert.Contains(Rows(ScheduleCsv.WriteIntervals(answer)), r => r[0] == Name);
    }

    private static double Number(string cell) => double.Parse(cell, CultureInfo.InvariantCulture);

    /// <summary>RFC 4180 read back, quotes and all.</summary>
    private static List<string[]> Rows(byte[] csv)
    {
        var rows = new List<string[]>();
        var row = new List<string>();
        var cell = new StringBuilder();
        var quoted = false;
        var text = Encoding.UTF8.GetString(csv);
        for (var i = 0; i < text.Length; i++)
        {
            var c = text[i];
            if (quoted)
            {
                if (c == '"' && i + 1 < text.Length && text[i + 1] == '"')
                {
                    cell.Append('"');
                    i++;
                }
                else if (c == '"')
                {
                    quoted = false;
                }
                else
                {
                    cell.Append(c);
                }
            }
            else if (c == '"')
            {
                Assert.Equal(0, cell.Length);
                quoted = true;
            }
            else if (c is ',' or '\r')
            {
                row.Add(cell.ToString());
                cell.Clear();
                if (c == '\r')
                {
                    Assert.Equal('\n', text[++i]);
                    rows.Add([.. row]);
                    row.Clear();
                }
            }
            else
            {
                Assert.NotEqual('\n', c);
                cell.Append(c);
            }
        }

        Assert.Empty(row);
        return rows;
    }
}
