using System.Text.Json;
using ScheduleOpt.Interchange.RatePlans;

namespace ScheduleOpt.Service.Tests.RatePlans;

public sealed class RatePlanApiTests(ServiceApplication service) : IClassFixture<ServiceApplication>
{
    [Fact]
    public async Task List_NamesEveryPlanAndItsSource()
    {
        var list = JsonElement.Parse(await service.CreateClient().GetStringAsync("/v1/rate-plans")).GetProperty("ratePlans");
        Assert.Equal(RatePlanLibrary.Ids, list.EnumerateArray().Select(p => p.GetProperty("id").GetString()));
        Assert.All(list.EnumerateArray(), p => Assert.False(string.IsNullOrWhiteSpace(p.GetProperty("source").GetString())));
    }

    [Fact]
    public async Task Plan_ReadBackFromItsDocument_IsAPlan()
    {
        foreach (var id in RatePlanLibrary.Ids)
        {
            var document = await service.CreateClient().GetStringAsync($"/v1/rate-plans/{id}");
            Assert.True(RatePlanDocument.Read(document, id).IsRead, id);
        }
    }
}
