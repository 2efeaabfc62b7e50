"""Charts tell their figures by touch and by keyboard, with date, value and interval."""

import re

import pytest
from playwright.sync_api import expect

from tests.browser.conftest import Phones
from tests.browser.phone import Phone
from tests.browser.server import Server

CHARTS = ("Mean weight over time", "Weights of the fish today", "Biomass", "Oxygen")


def demo_unit(server: Server) -> str:
    units = server.items("v1/units")
    return str(next(unit["id"] for unit in units if unit["name"] == "Tank A"))


def test_each_chart_is_read_by_keys_and_by_touch(phone: Phone, server: Server) -> None:
    """The figure told is the one that the server gave; the ends are reached."""
    unit_id = demo_unit(server)
    charts = server.get(f"v1/units/{unit_id}/charts")
    phone.open(f"unit/{unit_id}")
    frames = phone.page.locator(".chart[role=slider]")
    expect(frames).to_have_count(len(CHARTS))
    for place, title in enumerate(CHARTS):
        expect(frames.nth(place)).to_have_attribute("aria-label", re.compile(title))
    growth = frames.first
    growth.focus()
    growth.press("End")
    last = charts["growth"][0]["ahead"][-1]
    shown = growth.get_attribute("aria-valuetext") or ""
    (value,) = re.findall(r": ([\d.]+)\s*g · ", shown)
    assert float(value) == pytest.approx(last["mean_weight_g"]["value"], rel=0.005)
    low, high = re.findall(r"([\d.]+)\u2013([\d.]+)\s*g with 90 % confidence", shown)[0]
    assert float(low) == pytest.approx(last["mean_weight_g"]["low"], rel=0.005)
    assert float(high) == pytest.approx(last["mean_weight_g"]["high"], rel=0.005)
    growth.press("Home")
    first = growth.get_attribute("aria-valuetext") or ""
    assert "Sample" in first
    told = phone.page.locator(".chart-told").first
    expect(told).to_have_text(first)
    box = growth.bounding_box()
    assert box is not None
    phone.page.touchscreen.tap(
        box["x"] + 0.97 * box["width"], box["y"] + 0.5 * box["height"]
    )
    expect(told).to_contain_text("Forecast")
    expect(told).not_to_have_text(first)


def test_a_plan_follows_its_sliders_and_stays_without_a_server(
    phones: Phones, own_server: Server
) -> None:
    """The server works it out; without one the last figures stand with their time."""
    server = own_server.start()
    server.fill_demo()
    phone = phones(server.url)
    unit_id = demo_unit(server)
    phone.open(f"unit/{unit_id}")
    phone.link("Plan: harvest, feed, room, outage").click()
    days = phone.page.get_by_label("Days to feed")
    expect(days).to_have_value("30")
    answer = phone.page.locator("section.card").filter(has=days).locator(".headline")
    expect(answer).to_be_visible()
    before = answer.inner_text()
    days.focus()
    days.press("ArrowRight")
    days.press("ArrowRight")
    expect(answer).not_to_have_text(before)
    expected = server.get(f"v1/units/{unit_id}/plan?feed_days=32")["feed_kg"]["value"]
    assert float(answer.inner_text().split()[0]) == pytest.approx(expected, rel=0.005)
    phone.page.evaluate("navigator.serviceWorker.ready.then(() => true)")
    server.stop()
    days.press("ArrowRight")
    expect(phone.page.get_by_text("Figures of", exact=False)).to_be_visible()
    expect(phone.page.get_by_text("32 days").first).to_be_visible()
